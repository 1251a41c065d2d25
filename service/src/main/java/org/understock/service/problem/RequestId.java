package org.understock.service.problem;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletRequest;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.slf4j.MDC;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Gives every request an id: the trace id of a W3C {@code traceparent} header if there is one, a
 * random one otherwise. It goes into the answer's {@code X-Request-Id}, into a problem's {@code
 * instance} and into the log.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class RequestId extends OncePerRequestFilter {
  private static final String ATTRIBUTE = RequestId.class.getName();
  private static final Pattern TRACEPARENT =
      Pattern.compile("[0-9a-f]{2}-([0-9a-f]{32})-[0-9a-f]{16}-[0-9a-f]{2}(-.*)?");

  /** The request's id, made when it has none yet. */
  static String of(ServletRequest request) {
    if (request.getAttribute(ATTRIBUTE) instanceof String id) return id;
    String id = UUID.randomUUID().toString().replace("-", "");
    request.setAttribute(ATTRIBUTE, id);
    return id;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    String parent = request.getHeader("traceparent");
    Matcher trace = TRACEPARENT.matcher(parent == null ? "" : parent);
    if (trace.matches() && !trace.group(1).matches("0+"))
      request.setAttribute(ATTRIBUTE, trace.group(1));
    String id = of(request);
    response.setHeader("X-Request-Id", id);
    response.setHeader("X-Content-Type-Options", "nosniff");
    try (MDC.MDCCloseable logged = MDC.putCloseable("requestId", id)) {
      chain.doFilter(request, response);
    }
  }
}
