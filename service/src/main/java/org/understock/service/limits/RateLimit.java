package org.understock.service.limits;

import io.github.bucket4j.Bucket;
import io.github.bucket4j.ConsumptionProbe;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import org.springframework.http.HttpHeaders;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * Counts what each client asks, tells it in {@code RateLimit} and {@code RateLimit-Policy}
 * (draft-ietf-httpapi-ratelimit-headers-10), and sends a client away who has used up his allowance.
 * A client is the address that the connection comes from, or, behind proxies that the operator
 * trusts, the one that they tell: never one that anybody could write into a header.
 */
public final class RateLimit extends OncePerRequestFilter {
  public static final String REMAINING = "RateLimit";
  public static final String POLICY = "RateLimit-Policy";
  private static final String NAME = "\"client\"";

  private final LimitSettings settings;
  private final Clients clients;
  private final String policy;
  private final HandlerExceptionResolver problems;

  RateLimit(LimitSettings settings, HandlerExceptionResolver problems) {
    this.settings = settings;
    this.clients = new Clients(settings);
    this.problems = problems;
    long whole = seconds(Duration.ofMinutes(1).toNanos() * settings.burst(), settings.perMinute());
    this.policy = NAME + ";q=" + settings.burst() + ";w=" + whole;
  }

  @Override
  protected boolean shouldNotFilter(HttpServletRequest request) {
    String path = request.getRequestURI().substring(request.getContextPath().length());
    // A page with the widget asks for a dozen of its files at once; they cost next to nothing.
    return settings.perMinute() == 0 || path.startsWith("/actuator") || path.startsWith("/widget/");
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    Bucket bucket = clients.of(request.getRemoteAddr());
    ConsumptionProbe probe = bucket.tryConsumeAndReturnRemaining(1);
    response.setHeader(POLICY, policy);
    response.setHeader(
        REMAINING,
        NAME
            + ";r="
            + Math.max(0, probe.getRemainingTokens())
            + ";t="
            + seconds(probe.getNanosToWaitForReset(), 1));
    if (!probe.isConsumed()) {
      String wait = String.valueOf(Math.max(1, seconds(probe.getNanosToWaitForRefill(), 1)));
      problems.resolveException(
          request,
          response,
          null,
          ProblemException.of(
                  ProblemType.TOO_MANY_REQUESTS,
                  "More was asked than "
                      + settings.perMinute()
                      + " units a minute; ask again in "
                      + wait
                      + " s.",
                  List.of())
              .withHeader(HttpHeaders.RETRY_AFTER, wait));
      return;
    }
    new Allowance(bucket).giveTo(request);
    chain.doFilter(request, response);
  }

  private static long seconds(long nanos, long per) {
    if (per == 0) return 0;
    return (long) Math.ceil((double) nanos / per / 1e9);
  }
}
