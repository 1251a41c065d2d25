package org.understock.service.contract;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.restassured.builder.ResponseBuilder;
import io.restassured.response.Response;
import org.junit.jupiter.api.Test;

/** The check by which all other tests hold answers against the contract catches what is wrong. */
class ContractTest {
  private static final Contract CONTRACT =
      new Contract(
          """
      {"openapi": "3.1.0", "info": {"title": "t", "version": "1"},
       "paths": {"/v1/trees/{id}": {"get": {"responses": {
         "200": {"description": "d", "headers": {"ETag": {"required": true, "schema": {"type": "string"}}, "Link": {"schema": {"type": "string"}}},
           "content": {"application/json": {"schema": {"$ref": "#/components/schemas/Tree"}}}},
         "304": {"description": "d", "headers": {"ETag": {"required": true, "schema": {"type": "string"}}}},
         "404": {"$ref": "#/components/responses/Missing"}}}}},
       "components": {
         "responses": {"Missing": {"description": "d", "headers": {"Retry-After": {"required": true, "schema": {"type": "string"}}}}},
         "schemas": {"Tree": {"type": "object", "required": ["id"], "properties": {"id": {"type": "string"}}}}}}
      """);

  private static ResponseBuilder answer(int status, String body) {
    return new ResponseBuilder()
        .setStatusCode(status)
        .setContentType("application/json")
        .setBody(body);
  }

  private static void refused(String method, String path, Response response, String why) {
    assertThatThrownBy(() -> CONTRACT.check(method, path, response))
        .isInstanceOf(AssertionError.class)
        .hasMessageContaining(why);
  }

  @Test
  void a_good_answer_passes() {
    Response good = answer(200, "{\"id\":\"m-9\"}").setHeader("etag", "W/\"1\"").build();
    assertThatCode(() -> CONTRACT.check("GET", "/v1/trees/m-9", good)).doesNotThrowAnyException();
    Response held =
        new ResponseBuilder().setStatusCode(304).setHeader("ETag", "W/\"1\"").setBody("").build();
    assertThatCode(() -> CONTRACT.check("GET", "/v1/trees/m-9", held)).doesNotThrowAnyException();
  }

  @Test
  void a_header_that_must_be_there_and_is_not_is_told() {
    refused(
        "GET",
        "/v1/trees/m-9",
        answer(200, "{\"id\":\"m-9\"}").setHeader("Link", "l").build(),
        "lacks the header ETag");
    refused(
        "GET",
        "/v1/trees/m-9",
        new ResponseBuilder().setStatusCode(304).setBody("").build(),
        "lacks the header ETag");
    refused(
        "GET",
        "/v1/trees/m-9",
        new ResponseBuilder().setStatusCode(404).setBody("").build(),
        "lacks the header Retry-After");
  }

  @Test
  void whatever_else_is_not_in_the_contract_is_told() {
    refused("GET", "/v1/bushes/m-9", answer(200, "{}").build(), "is not in the contract");
    refused("PUT", "/v1/trees/m-9", answer(200, "{}").build(), "is not in the contract");
    refused("GET", "/v1/trees/m-9", answer(418, "{}").build(), "418 is a status that");
    refused(
        "GET",
        "/v1/trees/m-9",
        answer(200, "{\"id\":\"m-9\"}").setHeader("ETag", "1").setContentType("text/html").build(),
        "media type text/html");
    refused(
        "GET",
        "/v1/trees/m-9",
        answer(200, "{\"name\":\"M.9\"}").setHeader("ETag", "1").build(),
        "does not satisfy the contract");
    refused("GET", "/v1/trees/m-9", answer(304, "{}").setHeader("ETag", "1").build(), "has a body");
  }
}
