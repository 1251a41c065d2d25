package org.understock.service.problem;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ReadListener;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import jakarta.servlet.http.HttpServletResponse;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * Refuses bodies that come too slowly with 408, and those above a limit with 413, told by their
 * declared length or, when they come in chunks, by counting.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 10)
class BodyLimit extends OncePerRequestFilter {
  private static final String IMPORTS = "/v1/curation/imports";
  private static final String SERIES = "/v1/chill";

  /**
   * A body that comes at less than a kilobyte a second, after a grace, holds a thread for nothing.
   */
  private static final long NANOS_A_BYTE = 1_000_000;

  /** Has a limit for each line, and as many lines as come. */
  private static final String BATCH = "/v1/advice/batch";

  private final long maxBytes;
  private final long maxImportBytes;
  private final long maxSeriesBytes;
  private final long graceNanos;
  private final HandlerExceptionResolver problems;

  BodyLimit(
      @Value("${understock.max-body-bytes:1048576}") long maxBytes,
      @Value("${understock.max-import-bytes:268435456}") long maxImportBytes,
      @Value("${understock.max-series-bytes:16777216}") long maxSeriesBytes,
      @Value("${understock.slow-body-grace:20s}") Duration grace,
      HandlerExceptionResolver handlerExceptionResolver) {
    this.graceNanos = grace.toNanos();
    this.maxBytes = maxBytes;
    this.maxImportBytes = maxImportBytes;
    this.maxSeriesBytes = maxSeriesBytes;
    this.problems = handlerExceptionResolver;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    long limit = limit(request.getRequestURI());
    if (request.getContentLengthLong() > limit) {
      response.setHeader("Connection", "close"); // what is left of the body is not read
      ClosedHeaders.on(response);
      problems.resolveException(request, response, null, tooLarge(limit));
      return;
    }
    boolean atItsPace = request.getRequestURI().equals(BATCH);
    chain.doFilter(new Counted(request, limit, atItsPace ? Long.MAX_VALUE : graceNanos), response);
  }

  private long limit(String path) {
    if (path.equals(IMPORTS)) return maxImportBytes;
    if (path.equals(BATCH)) return Long.MAX_VALUE;
    return path.equals(SERIES) ? maxSeriesBytes : maxBytes;
  }

  private static ProblemException tooLarge(long limit) {
    return ProblemException.of(
        ProblemType.TOO_LARGE, "The body is longer than " + limit + " bytes.", List.of());
  }

  private static final class Counted extends HttpServletRequestWrapper {
    private final long limit;
    private final long graceNanos;

    Counted(HttpServletRequest request, long limit, long graceNanos) {
      super(request);
      this.limit = limit;
      this.graceNanos = graceNanos;
    }

    @Override
    public ServletInputStream getInputStream() throws IOException {
      return new CountedStream(super.getInputStream(), limit, graceNanos);
    }

    @Override
    public BufferedReader getReader() throws IOException {
      String encoding = getCharacterEncoding();
      return new BufferedReader(
          new InputStreamReader(
              getInputStream(), encoding == null ? StandardCharsets.UTF_8.name() : encoding));
    }
  }

  private static final class CountedStream extends ServletInputStream {
    private final ServletInputStream body;
    private final long limit;
    private final long graceNanos;
    private final long begun = System.nanoTime();
    private long read;

    CountedStream(ServletInputStream body, long limit, long graceNanos) {
      this.body = body;
      this.limit = limit;
      this.graceNanos = graceNanos;
    }

    @Override
    public int read() throws IOException {
      int b = body.read();
      if (b >= 0) count(1);
      return b;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
      int n = body.read(into, offset, length);
      if (n > 0) count(n);
      return n;
    }

    @Override
    public int available() throws IOException {
      return body.available();
    }

    private void count(int n) {
      read += n;
      if (read > limit) throw tooLarge(limit);
      if (System.nanoTime() - begun - graceNanos > read * NANOS_A_BYTE)
        throw ProblemException.of(
                ProblemType.TOO_SLOW, "The body comes at less than a kilobyte a second.", List.of())
            .withHeader("Connection", "close");
    }

    @Override
    public boolean isFinished() {
      return body.isFinished();
    }

    @Override
    public boolean isReady() {
      return body.isReady();
    }

    @Override
    public void setReadListener(ReadListener listener) {
      body.setReadListener(listener);
    }
  }
}
