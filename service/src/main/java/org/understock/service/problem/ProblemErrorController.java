package org.understock.service.problem;

import io.swagger.v3.oas.annotations.Hidden;
import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

/** What a filter or the servlet container refused before a controller was reached. */
@Hidden
@RestController
class ProblemErrorController implements ErrorController {
  @RequestMapping(
      path = "${spring.web.error.path:/error}",
      produces = MediaType.APPLICATION_PROBLEM_JSON_VALUE)
  @Nullable ResponseEntity<Problem> problem(
      HttpServletRequest request, HttpServletResponse response) {
    if (response.isCommitted()) return null; // an answer that broke off is not followed by another
    int status =
        request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer code
            ? code
            : 404;
    ProblemType type = ProblemType.ofStatus(status);
    String path =
        request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI) instanceof String uri
            ? uri
            : request.getRequestURI();
    String detail = status == 404 ? "Nothing is at " + Texts.cut(path, 200) + "." : type.unread();
    return ResponseEntity.status(status)
        .cacheControl(CacheControl.noStore())
        .contentType(MediaType.APPLICATION_PROBLEM_JSON)
        .body(Problem.of(type, status, detail, RequestId.of(request), List.of()));
  }
}
