package org.understock.service.problem;

import jakarta.validation.Validator;
import java.io.InputStream;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.validation.BeanPropertyBindingResult;
import org.springframework.validation.Errors;
import org.springframework.validation.beanvalidation.SpringValidatorAdapter;
import org.springframework.web.context.request.RequestContextHolder;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/**
 * Reads one JSON object out of many in a request's body, as strictly as a body that is one object.
 */
@Component
public class JsonBodies {
  private final JsonMapper json;
  private final SpringValidatorAdapter validator;
  private final BeanProblems beans;

  JsonBodies(JsonMapper json, Validator validator) {
    this.json = json;
    this.validator = new SpringValidatorAdapter(validator);
    this.beans = new BeanProblems(validator);
  }

  /**
   * Only while a request is answered. @throws ProblemException naming everything that is wrong with
   * the object
   */
  public <T> T read(String text, Class<T> type) {
    return read(text, type, read -> {});
  }

  /** The same, read from a body as it comes, without a copy of its text. */
  public <T> T read(InputStream body, Class<T> type) {
    return checked(() -> json.readValue(body, type), read -> {});
  }

  /**
   * The same.
   *
   * @param seen is shown what was read before it is checked, for what a refusal wants to name
   */
  public <T> T read(String text, Class<T> type, Consumer<T> seen) {
    return checked(() -> json.readValue(text, type), seen);
  }

  private <T> T checked(Supplier<@Nullable T> reading, Consumer<T> seen) {
    List<ProblemError> unknown =
        StrictJson.UnknownFields.found(RequestContextHolder.currentRequestAttributes());
    unknown.clear();
    @Nullable T body;
    try {
      body = reading.get();
    } catch (JacksonException e) {
      throw BodyProblems.of(e);
    }
    if (body != null) seen.accept(body);
    if (!unknown.isEmpty()) {
      ProblemException all =
          BodyProblems.malformed(BodyProblems.unknownFields(unknown.size()), unknown);
      unknown.clear();
      throw all;
    }
    if (body == null) throw BodyProblems.of((Throwable) null);
    Errors errors = new BeanPropertyBindingResult(body, "body");
    validator.validate(body, errors);
    if (errors.hasErrors()) throw beans.ofBody(errors);
    return body;
  }

  /** One line of JSON, in UTF-8. */
  public byte[] bytes(Object body) {
    return json.writeValueAsBytes(body);
  }

  /** One line of JSON. */
  public String write(Object body) {
    return json.writeValueAsString(body);
  }
}
