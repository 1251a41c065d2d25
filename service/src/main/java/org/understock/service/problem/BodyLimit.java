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
import java.util.List;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * Refuses bodies above a limit with 413, told by their declared length or, when they come in
 * chunks, by counting.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 10)
class BodyLimit extends OncePerRequestFilter {
  private static final String IMPORTS = "/v1/curation/imports";
  private static final String SERIES = "/v1/chill";

  /** Has a limit for each line, and as many lines as come. */
  private static final String BATCH = "/v1/advice/batch";

  private final long maxBytes;
  private final long maxImportBytes;
  private final long maxSeriesBytes;
  private final HandlerExceptionResolver problems;

  BodyLimit(
      @Value("${understock.max-body-bytes:1048576}") long maxBytes,
      @Value("${understock.max-import-bytes:268435456}") long maxImportBytes,
      @Value("${understock.max-series-bytes:16777216}") long maxSeriesBytes,
      HandlerExceptionResolver handlerExceptionResolver) {
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
      problems.resolveException(request, response, null, tooLarge(limit));
      return;
    }
    chain.doFilter(new Counted(request, limit), response);
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

    Counted(HttpServletRequest request, long limit) {
      super(request);
      this.limit = limit;
    }

    @Override
    public ServletInputStream getInputStream() throws IOException {
      return new CountedStream(super.getInputStream(), limit);
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
    private long read;

    CountedStream(ServletInputStream body, long limit) {
      this.body = body;
      this.limit = limit;
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
