package org.understock.service.problem;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Validator;
import java.io.IOException;
import java.util.List;
import java.util.stream.Collectors;
import org.apache.tomcat.util.http.InvalidParameterException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.MethodParameter;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.dao.TransientDataAccessException;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.http.converter.HttpMessageNotWritableException;
import org.springframework.security.web.firewall.RequestRejectedException;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.web.ErrorResponse;
import org.springframework.web.HttpMediaTypeException;
import org.springframework.web.HttpMediaTypeNotAcceptableException;
import org.springframework.web.HttpMediaTypeNotSupportedException;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.MethodArgumentNotValidException;
import org.springframework.web.bind.MissingRequestValueException;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.async.AsyncRequestNotUsableException;
import org.springframework.web.method.annotation.HandlerMethodValidationException;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;
import org.understock.trait.Refusal;

/** The one place where what goes wrong in a request becomes a problem. */
@RestControllerAdvice
class ProblemAdvice {
  private static final Logger LOG = LoggerFactory.getLogger(ProblemAdvice.class);
  private static final String RETRY_AFTER_S = "5";

  private final BeanProblems beans;

  ProblemAdvice(Validator validator) {
    this.beans = new BeanProblems(validator);
  }

  @ExceptionHandler
  ResponseEntity<Problem> known(ProblemException e, HttpServletRequest request) {
    HttpHeaders headers = new HttpHeaders();
    e.headers().forEach(headers::set);
    if (e.type().status() == 503 && !headers.containsHeader(HttpHeaders.RETRY_AFTER))
      headers.set(HttpHeaders.RETRY_AFTER, RETRY_AFTER_S);
    return answer(e.type(), e.status(), e.getMessage(), e.errors(), headers, request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> refused(Refusal e, HttpServletRequest request) {
    boolean reading = request.getMethod().equals("GET") || request.getMethod().equals("HEAD");
    return known(RefusalProblems.of(e, !reading), request);
  }

  /** Characters that no header may hold are noticed only when somebody reads the header. */
  @ExceptionHandler
  ResponseEntity<Problem> notHttp(RequestRejectedException e, HttpServletRequest request) {
    ProblemType type = ProblemType.MALFORMED_REQUEST;
    return known(ProblemException.of(type, type.unread(), List.of()), request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> unreadable(
      HttpMessageNotReadableException e, HttpServletRequest request) {
    return known(BodyProblems.of(e.getCause()), request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> invalid(MethodArgumentNotValidException e, HttpServletRequest request) {
    if (e.getParameter().hasParameterAnnotation(RequestBody.class))
      return known(beans.ofBody(e.getBindingResult()), request);
    List<ProblemError> errors =
        e.getFieldErrors().stream()
            .map(
                f ->
                    new ProblemError(
                        null,
                        f.getField(),
                        String.valueOf(f.getDefaultMessage()),
                        null,
                        f.getRejectedValue(),
                        null))
            .toList();
    return known(
        ProblemException.of(ProblemType.INVALID_REQUEST, "A parameter can't be used.", errors),
        request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> invalid(HandlerMethodValidationException e, HttpServletRequest request) {
    return known(beans.of(e.getParameterValidationResults()), request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> mistyped(
      MethodArgumentTypeMismatchException e, HttpServletRequest request) {
    Class<?> type = e.getRequiredType();
    String kind =
        type == null
            ? "of another form"
            : Number.class.isAssignableFrom(type) || type.isPrimitive() && type != boolean.class
                ? "a number"
                : type == Boolean.class || type == boolean.class
                    ? "true or false"
                    : "of another form";
    return parameter(
        name(e.getParameter(), e.getName()), "must be " + kind, kind, e.getValue(), request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> missing(MissingRequestValueException e, HttpServletRequest request) {
    String name =
        e instanceof MissingServletRequestParameterException p
            ? p.getParameterName()
            : String.valueOf(e.getBody().getDetail());
    return parameter(name, "is needed", null, null, request);
  }

  private static String name(MethodParameter parameter, @Nullable String given) {
    return given != null ? given : String.valueOf(parameter.getParameterName());
  }

  private ResponseEntity<Problem> parameter(
      String name,
      String detail,
      @Nullable String allowed,
      @Nullable Object given,
      HttpServletRequest request) {
    return known(
        ProblemException.of(
            ProblemType.INVALID_REQUEST,
            "The parameter '" + name + "' " + detail + ".",
            List.of(new ProblemError(null, name, detail, allowed, given, null))),
        request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> method(
      HttpRequestMethodNotSupportedException e, HttpServletRequest request) {
    String allowed =
        e.getSupportedHttpMethods() == null
            ? ""
            : e.getSupportedHttpMethods().stream()
                .map(HttpMethod::name)
                .sorted()
                .collect(Collectors.joining(", "));
    return answer(
        ProblemType.METHOD_NOT_ALLOWED,
        405,
        e.getMethod()
            + " doesn't work here"
            + (allowed.isEmpty() ? "." : "; " + allowed + " does."),
        List.of(),
        new HttpHeaders(e.getHeaders()),
        request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> mediaType(
      HttpMediaTypeNotSupportedException e, HttpServletRequest request) {
    HttpHeaders headers = new HttpHeaders();
    if (!e.getSupportedMediaTypes().isEmpty()) {
      headers.set(
          request.getMethod().equals("POST") ? "Accept-Post" : HttpHeaders.ACCEPT,
          MediaType.toString(e.getSupportedMediaTypes()));
    }
    return answer(
        ProblemType.UNSUPPORTED_MEDIA_TYPE,
        415,
        "The body's Content-Type can't be read here" + possible(e),
        List.of(),
        headers,
        request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> notAcceptable(
      HttpMediaTypeNotAcceptableException e, HttpServletRequest request) {
    return answer(
        ProblemType.NOT_ACCEPTABLE,
        406,
        "The answer can't be given in a form that the Accept header names" + possible(e),
        List.of(),
        new HttpHeaders(),
        request);
  }

  private static String possible(HttpMediaTypeException e) {
    return e.getSupportedMediaTypes().isEmpty()
        ? "."
        : "; possible: " + MediaType.toString(e.getSupportedMediaTypes()) + ".";
  }

  @ExceptionHandler
  ResponseEntity<Problem> undecodable(InvalidParameterException e, HttpServletRequest request) {
    return answer(
        ProblemType.MALFORMED_REQUEST,
        400,
        "The query can't be decoded.",
        List.of(),
        new HttpHeaders(),
        request);
  }

  @ExceptionHandler({
    DataAccessResourceFailureException.class,
    TransientDataAccessException.class,
    CannotCreateTransactionException.class
  })
  ResponseEntity<Problem> databaseAway(Exception e, HttpServletRequest request) {
    LOG.warn("The database is away: {}", e.getMessage());
    return known(
        ProblemException.of(
            ProblemType.DATABASE_AWAY, "The database can't be reached at the moment.", List.of()),
        request);
  }

  /** Two that wanted to file the same at the same moment: the database lets one of them. */
  @ExceptionHandler
  ResponseEntity<Problem> filedByAnother(DuplicateKeyException e, HttpServletRequest request) {
    return known(
        ProblemException.of(
            ProblemType.CONFLICT,
            "Somebody else has filed the same in between; read what is there.",
            List.of()),
        request);
  }

  /** The asker has gone: there is nobody to tell. */
  @ExceptionHandler
  void gone(AsyncRequestNotUsableException e) {
    LOG.debug("The asker has gone: {}", e.getMessage());
  }

  /**
   * The answer broke off because the asker went away while it was written; anything else that
   * cannot be written is a fault of ours.
   */
  @ExceptionHandler
  @Nullable ResponseEntity<Problem> unwritten(
      HttpMessageNotWritableException e, HttpServletRequest request) {
    for (Throwable cause = e; cause != null; cause = cause.getCause()) {
      if (cause instanceof AsyncRequestNotUsableException || cause instanceof IOException) {
        LOG.debug("The asker has gone: {}", cause.getMessage());
        return null;
      }
    }
    return other(e, request);
  }

  @ExceptionHandler
  ResponseEntity<Problem> other(Exception e, HttpServletRequest request) {
    if (e instanceof ErrorResponse response && response.getStatusCode().is4xxClientError()) {
      int status = response.getStatusCode().value();
      return answer(
          ProblemType.ofStatus(status),
          status,
          sentence(status, request),
          List.of(),
          new HttpHeaders(response.getHeaders()),
          request);
    }
    if (DatabaseAway.caused(e)) return databaseAway(e, request);
    LOG.error("Request failed", e);
    return answer(
        ProblemType.INTERNAL,
        500,
        "Something went wrong in the service; the log has it under this instance.",
        List.of(),
        new HttpHeaders(),
        request);
  }

  private static String sentence(int status, HttpServletRequest request) {
    if (status == HttpStatus.NOT_FOUND.value())
      return "Nothing is at " + Texts.cut(request.getRequestURI(), 200) + ".";
    return "The request can't be answered (status " + status + ").";
  }

  private static ResponseEntity<Problem> answer(
      ProblemType type,
      int status,
      String detail,
      List<ProblemError> errors,
      HttpHeaders headers,
      HttpServletRequest request) {
    Problem problem = Problem.of(type, status, detail, RequestId.of(request), errors);
    return ResponseEntity.status(status)
        .headers(headers)
        .cacheControl(CacheControl.noStore())
        .contentType(MediaType.APPLICATION_PROBLEM_JSON)
        .body(problem);
  }
}
