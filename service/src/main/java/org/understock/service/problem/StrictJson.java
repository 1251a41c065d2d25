package org.understock.service.problem;

import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.core.MethodParameter;
import org.springframework.http.HttpInputMessage;
import org.springframework.http.converter.HttpMessageConverter;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.RequestAttributes;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.servlet.mvc.method.annotation.RequestBodyAdviceAdapter;
import org.understock.trait.PlainText;
import tools.jackson.core.JsonParser;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.ValueDeserializer;
import tools.jackson.databind.deser.DeserializationProblemHandler;
import tools.jackson.databind.deser.std.StdScalarDeserializer;
import tools.jackson.databind.exc.MismatchedInputException;

/** What the JSON reader of requests does beyond Jackson's own strictness. */
final class StrictJson {
  private static final String UNKNOWN_FIELDS = StrictJson.class.getName() + ".unknownFields";
  private static final int MOST_UNKNOWN = 50;

  private StrictJson() {}

  /**
   * Collects all unknown fields of a request's body, so that they are refused together. Outside a
   * request the first is refused at once.
   */
  static final class UnknownFields extends DeserializationProblemHandler {
    @Override
    public boolean handleUnknownProperty(
        DeserializationContext context,
        JsonParser parser,
        ValueDeserializer<?> deserializer,
        Object beanOrClass,
        String name) {
      RequestAttributes request = RequestContextHolder.getRequestAttributes();
      if (request == null) return false;
      List<ProblemError> found = found(request);
      if (found.size() < MOST_UNKNOWN) {
        String pointer =
            Pointers.ofPointer(upTo(name, parser.streamReadContext().pathAsPointer().toString()));
        found.add(
            BodyProblems.unknownField(
                pointer, name, deserializer == null ? null : deserializer.getKnownPropertyNames()));
      }
      parser.skipChildren();
      return true;
    }

    /**
     * A buffered reader that stands at the beginning of a list says that it is in its first element
     * already.
     */
    private static String upTo(String name, String pointer) {
      String step = "/" + name.replace("~", "~0").replace("/", "~1");
      return pointer.endsWith(step + "/0") ? pointer.substring(0, pointer.length() - 2) : pointer;
    }

    @SuppressWarnings("unchecked") // only this class sets the attribute
    static List<ProblemError> found(RequestAttributes request) {
      Object found = request.getAttribute(UNKNOWN_FIELDS, RequestAttributes.SCOPE_REQUEST);
      if (found != null) return (List<ProblemError>) found;
      List<ProblemError> none = new ArrayList<>();
      request.setAttribute(UNKNOWN_FIELDS, none, RequestAttributes.SCOPE_REQUEST);
      return none;
    }
  }

  /** Refuses a body with unknown fields once it has been read whole. */
  @RestControllerAdvice
  static class UnknownFieldsRefused extends RequestBodyAdviceAdapter {
    @Override
    public boolean supports(
        MethodParameter parameter, Type type, Class<? extends HttpMessageConverter<?>> converter) {
      return true;
    }

    @Override
    public Object afterBodyRead(
        Object body,
        HttpInputMessage message,
        MethodParameter parameter,
        Type type,
        Class<? extends HttpMessageConverter<?>> converter) {
      List<ProblemError> found =
          UnknownFields.found(RequestContextHolder.currentRequestAttributes());
      if (!found.isEmpty())
        throw BodyProblems.malformed(BodyProblems.unknownFields(found.size()), found);
      return body;
    }
  }

  /**
   * Texts only from JSON strings, and only such as can be kept and handed back: UTF-8 carries no
   * unpaired surrogate, and the database no U+0000.
   */
  static final class WellFormedText extends StdScalarDeserializer<String> {
    WellFormedText() {
      super(String.class);
    }

    @Override
    public @Nullable String deserialize(JsonParser parser, DeserializationContext context) {
      String text = parser.getString();
      if (!parser.currentToken().isScalarValue()
          || parser.currentToken().isNumeric()
          || parser.currentToken().isBoolean()) {
        throw MismatchedInputException.from(parser, String.class, "not a text");
      }
      int at = PlainText.unkeepable(text);
      if (at >= 0) throw new UnkeepableText(parser, text, at);
      return text;
    }
  }

  /** A text that is JSON, but holds a character that can't be kept. */
  static final class UnkeepableText extends MismatchedInputException {
    private final String misfit;

    UnkeepableText(JsonParser parser, String text, int at) {
      super(parser, "a text holds a character that can't be kept");
      this.misfit = "the " + PlainText.placed(text, at);
    }

    /** What has to go, and where it stands in the text: "the control character … at …". */
    String misfit() {
      return misfit;
    }
  }
}
