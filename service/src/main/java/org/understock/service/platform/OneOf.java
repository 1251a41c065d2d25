package org.understock.service.platform;

import jakarta.validation.Constraint;
import jakarta.validation.ConstraintValidator;
import jakarta.validation.ConstraintValidatorContext;
import jakarta.validation.Payload;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.site.Word;

/**
 * The text is one of the words of a closed vocabulary. A text and not an enum on the wire, so that
 * a wrong word is refused together with all other wrong values, and with the words that would be
 * right.
 */
@Target({ElementType.FIELD, ElementType.METHOD, ElementType.PARAMETER, ElementType.TYPE_USE})
@Retention(RetentionPolicy.RUNTIME)
@Constraint(validatedBy = OneOf.Check.class)
public @interface OneOf {
  /** An enum of {@link Word}s, or {@link Crop}. */
  Class<? extends Enum<?>> value();

  String message() default "is not a known word";

  Class<?>[] groups() default {};

  Class<? extends Payload>[] payload() default {};

  /** Compares with the vocabulary, and says it in the message. */
  final class Check implements ConstraintValidator<OneOf, String> {
    private List<String> words = List.of();

    @Override
    public void initialize(OneOf annotation) {
      words = wordsOf(annotation.value());
    }

    @Override
    public boolean isValid(@Nullable String given, ConstraintValidatorContext context) {
      if (given == null || words.contains(given)) return true;
      context.disableDefaultConstraintViolation();
      context
          .buildConstraintViolationWithTemplate("must be one of " + String.join(", ", words))
          .addConstraintViolation();
      return false;
    }

    /** The words of a vocabulary in their order. */
    public static List<String> wordsOf(Class<? extends Enum<?>> vocabulary) {
      return Arrays.stream(vocabulary.getEnumConstants())
          .map(c -> c instanceof Word word ? word.id() : ((Crop) c).id())
          .toList();
    }
  }
}
