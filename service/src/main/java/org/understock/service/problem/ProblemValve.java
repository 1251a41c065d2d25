package org.understock.service.problem;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ErrorReportValve;
import org.springframework.http.MediaType;
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes problems for requests that Tomcat refuses before the application sees them: lines that are
 * no HTTP, broken escapes, oversized headers. Made by Tomcat from its class name, so public.
 */
public class ProblemValve extends ErrorReportValve {
  private static final JsonMapper JSON =
      JsonMapper.builder()
          .changeDefaultPropertyInclusion(
              i ->
                  i.withValueInclusion(
                      com.fasterxml.jackson.annotation.JsonInclude.Include.NON_NULL))
          .build();

  @Override
  protected void report(Request request, Response response, Throwable throwable) {
    if (response.getStatus() < 400
        || response.getContentWritten() > 0
        || !response.setErrorReported()) return;
    // What a client sent can't be the server's fault: an unknown coding or HTTP version is told as
    // 400, not 501 or 505.
    int status = throwable == null && response.getStatus() > 500 ? 400 : response.getStatus();
    ProblemType type = ProblemType.ofStatus(status);
    Problem problem = Problem.of(type, status, type.unread(), RequestId.of(request), List.of());
    byte[] body = JSON.writeValueAsString(problem).getBytes(StandardCharsets.UTF_8);
    try {
      response.setStatus(status);
      response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
      response.setHeader("Cache-Control", "no-store");
      ClosedHeaders.on(response);
      response.setContentLength(body.length);
      response.getOutputStream().write(body);
      response.finishResponse();
    } catch (IOException | IllegalStateException e) {
      container.getLogger().debug("the problem can't be sent", e);
    }
  }
}
