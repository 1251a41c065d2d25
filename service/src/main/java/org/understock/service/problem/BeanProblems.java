package org.understock.service.problem;

import jakarta.validation.ConstraintViolation;
import jakarta.validation.Validator;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Size;
import jakarta.validation.metadata.BeanDescriptor;
import jakarta.validation.metadata.ConstraintDescriptor;
import jakarta.validation.metadata.PropertyDescriptor;
import java.lang.annotation.Annotation;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSourceResolvable;
import org.springframework.validation.Errors;
import org.springframework.validation.FieldError;
import org.springframework.validation.ObjectError;
import org.springframework.validation.method.ParameterErrors;
import org.springframework.validation.method.ParameterValidationResult;
import org.springframework.web.bind.annotation.RequestBody;

/**
 * Turns broken Bean Validation constraints into problems, all of them at once, each with the whole
 * range that is allowed.
 */
final class BeanProblems {
  private final Validator validator;

  BeanProblems(Validator validator) {
    this.validator = validator;
  }

  /** Of a request body. */
  ProblemException ofBody(Errors errors) {
    List<ProblemError> found = new ArrayList<>();
    for (ObjectError e : errors.getAllErrors()) found.add(ofBody(e));
    return invalid(found);
  }

  /** Of a method's parameters, its body among them. */
  ProblemException of(List<ParameterValidationResult> results) {
    List<ProblemError> found = new ArrayList<>();
    for (ParameterValidationResult result : results) {
      boolean body = result.getMethodParameter().hasParameterAnnotation(RequestBody.class);
      if (body && result instanceof ParameterErrors errors) {
        for (ObjectError e : errors.getAllErrors()) found.add(ofBody(e));
        continue;
      }
      String name = String.valueOf(result.getMethodParameter().getParameterName());
      for (MessageSourceResolvable e : result.getResolvableErrors()) {
        found.add(new ProblemError(null, name, text(e), null, result.getArgument(), null));
      }
    }
    return invalid(found);
  }

  private static ProblemException invalid(List<ProblemError> found) {
    found.sort(
        Comparator.comparing((ProblemError e) -> String.valueOf(e.pointer()))
            .thenComparing(ProblemError::detail));
    String detail =
        found.size() == 1 ? "A value can't be used." : found.size() + " values can't be used.";
    return ProblemException.of(ProblemType.INVALID_REQUEST, detail, found);
  }

  private ProblemError ofBody(ObjectError error) {
    String path = error instanceof FieldError field ? field.getField() : "";
    Object given = error instanceof FieldError field ? field.getRejectedValue() : null;
    String range =
        error.contains(ConstraintViolation.class)
            ? range(error.unwrap(ConstraintViolation.class))
            : null;
    return new ProblemError(
        Pointers.ofPath(path),
        null,
        range == null ? text(error) : "must " + range,
        range == null ? null : range.replaceFirst("^be |^have ", ""),
        given,
        null);
  }

  private static String text(MessageSourceResolvable error) {
    return error.getDefaultMessage() == null ? "can't be used" : error.getDefaultMessage();
  }

  /**
   * The range of the property that a violation is about, from all its constraints: a value below
   * the lower end is told the upper end too.
   */
  private @Nullable String range(ConstraintViolation<?> violation) {
    Annotation broken = violation.getConstraintDescriptor().getAnnotation();
    if (!(broken instanceof Min
        || broken instanceof Max
        || broken instanceof DecimalMin
        || broken instanceof DecimalMax
        || broken instanceof Size)) return null;
    if (broken instanceof Size size)
      return "have "
          + size(
              size, violation.getInvalidValue() instanceof CharSequence ? "characters" : "entries");
    String least = null;
    String most = null;
    for (Annotation a : siblings(violation)) {
      if (a instanceof Min min) least = Long.toString(min.value());
      if (a instanceof Max max) most = Long.toString(max.value());
      if (a instanceof DecimalMin min) least = (min.inclusive() ? "" : "above ") + min.value();
      if (a instanceof DecimalMax max) most = (max.inclusive() ? "" : "below ") + max.value();
    }
    if (least == null) return "be at most " + most;
    return most == null ? "be at least " + least : "be between " + least + " and " + most;
  }

  private static String size(Size size, String of) {
    if (size.max() == Integer.MAX_VALUE) return "at least " + size.min() + " " + of;
    return (size.min() == 0 ? "at most " : size.min() + " to ") + size.max() + " " + of;
  }

  private Collection<Annotation> siblings(ConstraintViolation<?> violation) {
    List<Annotation> all = new ArrayList<>();
    all.add(violation.getConstraintDescriptor().getAnnotation());
    if (violation.getLeafBean() == null) return all;
    String property = null;
    for (jakarta.validation.Path.Node node : violation.getPropertyPath())
      if (node.getKind() == jakarta.validation.ElementKind.PROPERTY) property = node.getName();
    if (property == null) return all;
    BeanDescriptor bean = validator.getConstraintsForClass(violation.getLeafBean().getClass());
    PropertyDescriptor described = bean.getConstraintsForProperty(property);
    if (described != null)
      for (ConstraintDescriptor<?> c : described.getConstraintDescriptors())
        all.add(c.getAnnotation());
    return all;
  }
}
