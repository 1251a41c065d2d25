package org.understock.service.security;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.server.ServerHttpResponse;
import org.springframework.security.web.servlet.util.matcher.PathPatternRequestMatcher;
import org.springframework.security.web.util.matcher.RequestMatcher;
import org.springframework.web.cors.CorsConfiguration;
import org.springframework.web.cors.CorsUtils;
import org.springframework.web.cors.DefaultCorsProcessor;
import org.springframework.web.filter.CorsFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.understock.service.limits.RateLimit;
import org.understock.service.platform.StaleHeader;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * Which pages of other origins may read the public paths from a browser: those of {@code
 * understock.cors.allowed-origins}, none by default. Never with cookies or other credentials, and
 * never the paths of curation. The widget's own files hold nothing of anybody and are open to all.
 *
 * <p>A request that comes from another page is answered all the same, only without the headers that
 * would let the page read the answer: a proxy that changes the host name must not make the
 * service's own pages fail.
 */
final class PublicCors {
  private static final Duration PREFLIGHT_KEPT = Duration.ofHours(1);

  /** The widget's files, which browsers load as modules only where every page may read them. */
  private static final RequestMatcher WIDGET = PathPatternRequestMatcher.pathPattern("/widget/**");

  private PublicCors() {}

  /**
   * @param origins {@code *} for all, or origins, in which a {@code *} stands for any part of the
   *     host: {@code https://*.example.org}
   */
  static CorsFilter filter(List<String> origins, HandlerExceptionResolver problems) {
    CorsConfiguration allowed = new CorsConfiguration();
    allowed.setAllowedOriginPatterns(origins);
    if (origins.contains("*")) {
      allowed.setAllowedOriginPatterns(null);
      allowed.setAllowedOrigins(List.of("*"));
    }
    allowed.setAllowedMethods(List.of("GET", "HEAD", "POST"));
    allowed.setAllowedHeaders(List.of("*"));
    allowed.setExposedHeaders(
        List.of(
            "ETag",
            "Link",
            "Retry-After",
            RateLimit.REMAINING,
            RateLimit.POLICY,
            "X-Request-Id",
            StaleHeader.NAME));
    allowed.setMaxAge(PREFLIGHT_KEPT);
    CorsConfiguration everyPage = new CorsConfiguration();
    everyPage.setAllowedOrigins(List.of("*"));
    everyPage.setAllowedMethods(List.of("GET", "HEAD"));
    CorsFilter filter =
        new CorsFilter(
            request -> WIDGET.matches(request) ? everyPage : origins.isEmpty() ? null : allowed);
    filter.setCorsProcessor(new Processor(problems));
    return filter;
  }

  private static final class Processor extends DefaultCorsProcessor {
    private final HandlerExceptionResolver problems;

    Processor(HandlerExceptionResolver problems) {
      this.problems = problems;
    }

    @Override
    public boolean processRequest(
        @Nullable CorsConfiguration allowed,
        HttpServletRequest request,
        HttpServletResponse response)
        throws IOException {
      if (!CorsUtils.isPreFlightRequest(request)) {
        boolean known =
            allowed != null && allowed.checkOrigin(request.getHeader(HttpHeaders.ORIGIN)) != null;
        if (known) return super.processRequest(allowed, request, response);
        if (allowed != null) response.addHeader(HttpHeaders.VARY, HttpHeaders.ORIGIN);
        return true;
      }
      try {
        return super.processRequest(allowed, request, response);
      } catch (Rejected e) {
        problems.resolveException(
            request,
            response,
            null,
            ProblemException.of(
                ProblemType.FORBIDDEN,
                "Pages of this origin may not send such requests: the operator has not allowed it.",
                List.of()));
        return false;
      }
    }

    @Override
    protected void rejectRequest(ServerHttpResponse response) throws IOException {
      throw new Rejected();
    }
  }

  private static final class Rejected extends IOException {}
}
