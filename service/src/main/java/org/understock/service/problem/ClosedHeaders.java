package org.understock.service.problem;

import jakarta.servlet.http.HttpServletResponse;

/**
 * Headers of every answer that is not meant to be looked at as a page: a browser is to take it for
 * what it says it is, run and load nothing in it, put it in no frame, and tell nobody where it came
 * from. The chains of security set the same; this is for what never gets there.
 */
public final class ClosedHeaders {
  private ClosedHeaders() {}

  public static void on(HttpServletResponse response) {
    response.setHeader("X-Content-Type-Options", "nosniff");
    response.setHeader("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'");
    response.setHeader("Referrer-Policy", "no-referrer");
    response.setHeader("X-Frame-Options", "DENY");
  }
}
