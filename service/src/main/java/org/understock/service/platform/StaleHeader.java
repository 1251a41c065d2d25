package org.understock.service.platform;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.understock.service.store.Freshness;

/**
 * Says in a header, while the database is away, since when the evidence in memory may be out of
 * date. A header and not a field: the answer to the same request on the same revision stays the
 * same to the byte.
 */
@Component
public final class StaleHeader extends OncePerRequestFilter {
  public static final String NAME = "Evidence-Stale-Since";

  private final Freshness freshness;

  StaleHeader(Freshness freshness) {
    this.freshness = freshness;
  }

  @Override
  protected boolean shouldNotFilter(HttpServletRequest request) {
    return !request.getRequestURI().startsWith("/v1/");
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    freshness.staleSince().ifPresent(since -> response.setDateHeader(NAME, since.toEpochMilli()));
    chain.doFilter(request, response);
  }
}
