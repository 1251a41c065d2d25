package org.understock.service.pages;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.io.Resource;
import org.springframework.http.CacheControl;
import org.springframework.util.DigestUtils;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.ResourceHandlerRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/**
 * Serves the widget under {@code /widget} and the invented places that use it under {@code /demo},
 * with {@code /} as the way in. The files are kept by browsers for a short time and then asked for
 * by their content: the jar's dates are the same in every build and would let an old widget stand
 * beside a new service.
 */
@Configuration(proxyBeanMethods = false)
class PagesConfiguration implements WebMvcConfigurer {
  private static final Duration KEPT = Duration.ofMinutes(10);

  /** Nothing inline, nothing from elsewhere: what the widget promises to get along with. */
  private static final String STRICT =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self';"
          + " base-uri 'none'; form-action 'none'; frame-ancestors 'none';"
          + " require-trusted-types-for 'script'";

  private final Map<String, String> tags = new ConcurrentHashMap<>();

  @Override
  public void addResourceHandlers(ResourceHandlerRegistry registry) {
    for (String folder : new String[] {"widget", "demo"}) {
      registry
          .addResourceHandler("/" + folder + "/**")
          .addResourceLocations("classpath:/static/" + folder + "/")
          .setUseLastModified(false)
          .setEtagGenerator(this::tag)
          .setCacheControl(CacheControl.maxAge(KEPT).cachePublic());
    }
  }

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry
        .addInterceptor(
            new HandlerInterceptor() {
              @Override
              public boolean preHandle(
                  HttpServletRequest request, HttpServletResponse response, Object handler) {
                response.setHeader("Content-Security-Policy", STRICT);
                return true;
              }
            })
        .addPathPatterns("/", "/index.html", "/demo/**", "/docs/**");
  }

  /** A weak tag, as the container leaves out compression under a strong one. */
  private String tag(Resource file) {
    return tags.computeIfAbsent(
        file.getDescription(),
        key -> {
          try {
            return "W/\"" + DigestUtils.md5DigestAsHex(file.getContentAsByteArray()) + "\"";
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }
}
