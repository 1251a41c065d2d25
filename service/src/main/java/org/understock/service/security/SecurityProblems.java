package org.understock.service.security;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.authentication.AuthenticationServiceException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.oauth2.core.OAuth2AuthenticationException;
import org.springframework.security.oauth2.server.resource.BearerTokenError;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.access.AccessDeniedHandler;
import org.springframework.security.web.authentication.AuthenticationFailureHandler;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * Tells a request that is not let in what it lacks: a problem, and the challenge of RFC 6750 in
 * {@code WWW-Authenticate}.
 */
@Component
class SecurityProblems
    implements AuthenticationEntryPoint, AuthenticationFailureHandler, AccessDeniedHandler {
  private static final Logger LOG = LoggerFactory.getLogger(SecurityProblems.class);
  private static final String CHALLENGE = "Bearer realm=\"understock\"";

  private final HandlerExceptionResolver problems;

  SecurityProblems(HandlerExceptionResolver handlerExceptionResolver) {
    this.problems = handlerExceptionResolver;
  }

  @Override
  public void onAuthenticationFailure(
      HttpServletRequest request, HttpServletResponse response, AuthenticationException e) {
    commence(request, response, e);
  }

  @Override
  public void commence(
      HttpServletRequest request, HttpServletResponse response, AuthenticationException e) {
    if (e instanceof AuthenticationServiceException) {
      LOG.warn("A token can't be checked: {}", e.getMessage());
      answer(
          request,
          response,
          null,
          ProblemType.ISSUER_AWAY,
          "The keys by which tokens are checked can't be fetched at the moment.");
    } else if (e instanceof OAuth2AuthenticationException refused) {
      String reason =
          Optional.ofNullable(refused.getError().getDescription())
              .orElse("it can't be used")
              .replaceFirst("^An error occurred while attempting to decode the Jwt: ", "");
      String challenge =
          CHALLENGE
              + ", error=\""
              + refused.getError().getErrorCode()
              + "\", error_description=\""
              + reason.replace('"', '\'')
              + "\"";
      boolean malformed =
          refused.getError() instanceof BearerTokenError error
              && error.getHttpStatus() == HttpStatus.BAD_REQUEST;
      answer(
          request,
          response,
          challenge,
          malformed ? ProblemType.MALFORMED_REQUEST : ProblemType.UNAUTHORIZED,
          "The token is refused: " + reason + ".");
    } else {
      String needed =
          CurationRights.of(request).map(right -> " with the scope " + right.scopes()).orElse("");
      answer(
          request,
          response,
          CHALLENGE,
          ProblemType.UNAUTHORIZED,
          "A bearer token" + needed + " is needed in the Authorization header.");
    }
  }

  @Override
  public void handle(
      HttpServletRequest request, HttpServletResponse response, AccessDeniedException e) {
    Optional<Right> right = CurationRights.of(request);
    boolean unknown =
        right.isEmpty()
            && request.getRequestURI().startsWith(request.getContextPath() + CurationRights.ROOT);
    if (unknown) {
      answer(
          request,
          response,
          null,
          ProblemType.FORBIDDEN,
          "Nobody may do this: the contract has no such operation.");
      return;
    }
    Scope first = right.map(r -> r.anyOf().get(0)).orElse(Scope.ADMIN);
    String needed = right.map(Right::scopes).orElse(Scope.ADMIN.word());
    String detail = "The token lacks the scope " + needed + ".";
    String challenge =
        CHALLENGE
            + ", error=\"insufficient_scope\", error_description=\""
            + detail
            + "\", scope=\""
            + first.word()
            + "\"";
    answer(request, response, challenge, ProblemType.FORBIDDEN, detail);
  }

  private void answer(
      HttpServletRequest request,
      HttpServletResponse response,
      @Nullable String challenge,
      ProblemType type,
      String detail) {
    if (challenge != null) response.setHeader(HttpHeaders.WWW_AUTHENTICATE, challenge);
    problems.resolveException(
        request, response, null, ProblemException.of(type, detail, List.of()));
  }
}
