package org.understock.service.contract;

import io.swagger.v3.core.converter.AnnotatedType;
import io.swagger.v3.oas.models.media.Schema;
import java.lang.annotation.Annotation;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.customizers.PropertyCustomizer;
import org.springframework.stereotype.Component;
import org.understock.service.platform.OneOf;

/**
 * Writes the words of a closed vocabulary into the contract, so that what is checked and what is
 * published can't differ.
 */
@Component
class VocabularySchemas implements PropertyCustomizer {
  @Override
  @SuppressWarnings({"unchecked", "rawtypes"})
  public @Nullable Schema<?> customize(@Nullable Schema property, AnnotatedType type) {
    if (property == null || type.getCtxAnnotations() == null) return property;
    for (Annotation annotation : type.getCtxAnnotations()) {
      if (annotation instanceof OneOf vocabulary)
        property.setEnum(OneOf.Check.wordsOf(vocabulary.value()));
    }
    return property;
  }
}
