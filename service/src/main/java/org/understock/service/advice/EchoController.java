package org.understock.service.advice;

import io.swagger.v3.oas.annotations.Hidden;
import jakarta.validation.Valid;
import org.springframework.context.annotation.Profile;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;

/**
 * What the server costs without the engine: a request for advice, read and checked as always, is
 * written down again. Only under the profile {@code bench}, as the yardstick of {@code
 * deploy/bench/http}.
 */
@Hidden
@RestController
@Profile("bench")
class EchoController {
  @PostMapping(
      path = "/bench/echo",
      consumes = MediaType.APPLICATION_JSON_VALUE,
      produces = MediaType.APPLICATION_JSON_VALUE)
  AdviceRequest echo(@RequestBody @Valid AdviceRequest request) {
    return request;
  }
}
