package org.understock.service.limits;

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
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.understock.service.problem.ClosedHeaders;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * Refuses bodies that come too slowly with 408, and those above a limit with 413, told by their
 * declared length or, when they come in chunks, by counting.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 10)
class BodyLimit extends OncePerRequestFilter {
  private static final String IMPORTS = "/v1/curation/imports";
  private static final String SERIES = "/v1/chill";

  /** Take a site, and so the daily extremes of decades. */
  private static final Set<String> SITES =
      Set.of("/v1/advice", "/v1/planting-plans", "/v1/planting-comparisons");

  /** Has a limit for each line, and as many lines as come. */
  private static final String BATCH = "/v1/advice/batch";

  /**
   * @param bytes most bytes of a body
   * @param remedy what to do about a longer one
   */
  private record Limit(long bytes, String remedy) {}

  private final Limit usual;
  private final Limit site;
  private final Limit imports;
  private final Limit series;
  private final Places places;
  private final HandlerExceptionResolver problems;

  BodyLimit(
      @Value("${understock.max-body-bytes:1048576}") long maxBytes,
      @Value("${understock.max-site-bytes:4194304}") long maxSiteBytes,
      @Value("${understock.max-import-bytes:268435456}") long maxImportBytes,
      @Value("${understock.max-series-bytes:16777216}") long maxSeriesBytes,
      Places places,
      HandlerExceptionResolver handlerExceptionResolver) {
    this.places = places;
    usual = new Limit(maxBytes, "Send fewer candidates, or several requests.");
    site =
        new Limit(
            maxSiteBytes,
            "Send fewer years of site.temperatures, leave out white space, or ask POST /v1/chill once and tell its figures"
                + " (site.chillPortions, site.coldestNightC) instead.");
    imports = new Limit(maxImportBytes, "Cut the file, and send its parts one after another.");
    series =
        new Limit(
            maxSeriesBytes,
            "Send fewer years a request: winters don't depend on each other. As text/csv the same readings are shorter.");
    this.problems = handlerExceptionResolver;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    Limit limit = limit(request.getRequestURI());
    if (request.getContentLengthLong() > limit.bytes) {
      response.setHeader("Connection", "close"); // what is left of the body is not read
      ClosedHeaders.on(response);
      problems.resolveException(request, response, null, tooLarge(limit));
      return;
    }
    boolean atItsPace = request.getRequestURI().equals(BATCH);
    chain.doFilter(new Counted(request, limit, atItsPace ? null : places), response);
  }

  private Limit limit(String path) {
    return switch (path) {
      case IMPORTS -> imports;
      case BATCH -> new Limit(Long.MAX_VALUE, "");
      case SERIES -> series;
      default -> SITES.contains(path) ? site : usual;
    };
  }

  private static ProblemException tooLarge(Limit limit) {
    return ProblemException.of(
        ProblemType.TOO_LARGE,
        "The body is longer than " + limit.bytes + " bytes. " + limit.remedy,
        List.of());
  }

  private static final class Counted extends HttpServletRequestWrapper {
    private final Limit limit;
    private final @Nullable Places places;

    Counted(HttpServletRequest request, Limit limit, @Nullable Places places) {
      super(request);
      this.limit = limit;
      this.places = places;
    }

    @Override
    public ServletInputStream getInputStream() throws IOException {
      ServletInputStream body = super.getInputStream();
      return new CountedStream(
          body, limit, places == null ? null : places.body(body, getRemoteAddr()));
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
    private final Limit limit;
    private final Places.@Nullable Body paced;
    private long read;

    CountedStream(ServletInputStream body, Limit limit, Places.@Nullable Body paced) {
      this.body = body;
      this.limit = limit;
      this.paced = paced;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
      int n = paced == null ? body.read(into, offset, length) : paced.read(into, offset, length);
      if (n > 0) read += n;
      if (read > limit.bytes) throw tooLarge(limit).withHeader("Connection", "close");
      return n;
    }

    @Override
    public int available() throws IOException {
      return body.available();
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
