package org.understock.service.platform;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.MethodParameter;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.understock.plant.Names;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.trait.PlainText;
import org.understock.wording.Language;

/**
 * Refuses query parameters that an operation does not know, and known ones that are given twice: a
 * filter that is misspelt and silently ignored gives an answer to another question. Refuses
 * characters too that no kept text holds.
 */
@Configuration(proxyBeanMethods = false)
public class QueryParameters implements WebMvcConfigurer, HandlerInterceptor {
  /** Known to every operation that is worded in the asker's language. */
  public static final String LANG = "lang";

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry.addInterceptor(this).addPathPatterns("/v1/**");
  }

  @Override
  public boolean preHandle(
      HttpServletRequest request, HttpServletResponse response, Object handler) {
    if (!(handler instanceof HandlerMethod method)) return true;
    List<String> known =
        Arrays.stream(method.getMethodParameters())
            .filter(
                p ->
                    p.hasParameterAnnotation(RequestParam.class)
                        || p.getParameterType() == Language.class)
            .map(QueryParameters::name)
            .sorted()
            .toList();
    List<ProblemError> errors = new ArrayList<>();
    for (Map.Entry<String, String[]> given : new TreeMap<>(request.getParameterMap()).entrySet()) {
      String name = given.getKey();
      if (!known.contains(name)) {
        errors.add(
            new ProblemError(
                null,
                name,
                "is not a parameter of this operation",
                known.isEmpty() ? "no parameters" : String.join(", ", known),
                null,
                Names.closest(name, known, 3)));
      } else if (given.getValue().length > 1) {
        errors.add(
            new ProblemError(
                null,
                name,
                "is given " + given.getValue().length + " times; give it once",
                null,
                null,
                null));
      } else {
        String value = given.getValue()[0];
        int at = PlainText.misfit(value);
        if (at < 0) continue;
        String misfit = "the " + PlainText.placed(value, at);
        errors.add(
            new ProblemError(null, name, "holds " + misfit, "without " + misfit, null, null));
      }
    }
    if (errors.isEmpty()) return true;
    throw ProblemException.of(
        ProblemType.INVALID_REQUEST, "The query has parameters that can't be used.", errors);
  }

  private static String name(MethodParameter parameter) {
    if (parameter.getParameterType() == Language.class) return LANG;
    RequestParam annotation = parameter.getParameterAnnotation(RequestParam.class);
    if (annotation != null && !annotation.name().isEmpty()) return annotation.name();
    return parameter.getParameter().getName();
  }
}
