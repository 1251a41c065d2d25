package org.understock.service.reading;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.utils.SpringDocUtils;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.MethodParameter;
import org.springframework.http.HttpHeaders;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.understock.service.platform.QueryParameters;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.wording.Language;

/**
 * Hands a controller the language that the asker prefers, as a parameter of type {@link Language}:
 * the one of the query's {@code lang}, which goes first as a link can carry it, or else of the
 * header. The controller says in {@code Content-Language} which it was; the contract describes both
 * headers for every operation that has the parameter.
 */
@Configuration(proxyBeanMethods = false)
class Spoken implements WebMvcConfigurer, HandlerMethodArgumentResolver {
  private static final String LANG = QueryParameters.LANG;

  static {
    SpringDocUtils.getConfig()
        .addRequestWrapperToIgnore(Language.class); // described as a header instead
  }

  private static ProblemException unspoken(String told) {
    return ProblemException.of(
        ProblemType.INVALID_REQUEST,
        "The language is not spoken here.",
        List.of(
            new ProblemError(
                null,
                LANG,
                "must be en or es, or one of their regions such as es-MX",
                "en, es",
                told,
                null)));
  }

  @Override
  public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
    resolvers.add(this);
  }

  @Override
  public boolean supportsParameter(MethodParameter parameter) {
    return parameter.getParameterType() == Language.class;
  }

  @Override
  public Language resolveArgument(
      MethodParameter parameter,
      @Nullable ModelAndViewContainer container,
      NativeWebRequest request,
      @Nullable WebDataBinderFactory binders) {
    String told = request.getParameter(LANG);
    if (told != null) return Language.of(told).orElseThrow(() -> unspoken(told));
    String[] sent = request.getHeaderValues(HttpHeaders.ACCEPT_LANGUAGE);
    return Language.preferred(String.join(",", Objects.requireNonNullElse(sent, new String[0])));
  }
}
