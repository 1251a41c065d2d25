package org.understock.service.security;

import static org.assertj.core.api.Assertions.assertThat;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JOSEObjectType;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.JWSSigner;
import com.nimbusds.jose.crypto.ECDSASigner;
import com.nimbusds.jose.crypto.MACSigner;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.PlainJWT;
import com.nimbusds.jwt.SignedJWT;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.Date;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.web.bind.annotation.RequestMethod;
import org.springframework.web.servlet.mvc.method.RequestMappingInfo;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;
import org.understock.service.RunningService;
import org.understock.service.Tokens;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Every operation of the running service, with every kind of token. What each operation under
 * curation asks for stands here a second time: an operation that is not in {@link #EXPECTED} fails
 * the test until somebody has thought about who may call it.
 */
class AccessMatrixTest extends RunningService {
  private static final String EXPECTED =
      """
      GET  /v1/curation/sources        propose review admin
      GET  /v1/curation/sources/{}     propose review admin
      POST /v1/curation/sources        propose
      GET  /v1/curation/stocks         propose review admin
      GET  /v1/curation/stocks/{}      propose review admin
      POST /v1/curation/stocks         propose
      GET  /v1/curation/varieties      propose review admin
      GET  /v1/curation/varieties/{}   propose review admin
      POST /v1/curation/varieties      propose
      GET  /v1/curation/records        propose review admin
      GET  /v1/curation/records/{}     propose review admin
      POST /v1/curation/records        propose
      PUT  /v1/curation/records/{}     propose
      GET  /v1/curation/imports        propose review admin
      GET  /v1/curation/imports/{}     propose review admin
      POST /v1/curation/imports        propose
      POST /v1/curation/impact         propose review
      GET  /v1/curation/reviews        propose review admin
      GET  /v1/curation/reviews/{}     propose review admin
      POST /v1/curation/reviews        review
      GET  /v1/curation/gaps           propose review admin
      GET  /v1/curation/revisions/verify           propose review admin
      GET  /v1/curation/exports        propose review admin
      GET  /v1/curation/exports/{}     propose review admin
      GET  /v1/curation/audit          review admin
      """;
  private static final String ALL_SCOPES = "evidence:propose evidence:review evidence:admin";

  private static final HttpClient HTTP = HttpClient.newHttpClient();

  @Autowired
  @Qualifier("requestMappingHandlerMapping")
  private RequestMappingHandlerMapping mappings;

  /** What an operation is expected to ask for: no scopes when it is open to all. */
  private record Operation(String method, String path) {
    boolean curation() {
      return path.startsWith("/v1/curation");
    }
  }

  /** A token, and what becomes of it: its scopes when it is good, none when it must be refused. */
  private record Case(Optional<String> token, Optional<Set<String>> scopes) {}

  private static Map<Operation, Set<String>> expected() {
    Map<Operation, Set<String>> expected = new LinkedHashMap<>();
    EXPECTED
        .lines()
        .map(line -> line.strip().split("\\s+"))
        .forEach(
            words -> {
              Set<String> scopes = new TreeSet<>();
              for (String word : Arrays.copyOfRange(words, 2, words.length))
                scopes.add("evidence:" + word);
              expected.put(new Operation(words[0], words[1]), scopes);
            });
    return expected;
  }

  /** All operations of the contract, as the service maps them. */
  private Set<Operation> mapped() {
    Set<Operation> mapped = new LinkedHashSet<>();
    for (RequestMappingInfo info : mappings.getHandlerMethods().keySet()) {
      for (String path : info.getPatternValues()) {
        if (!path.startsWith("/v1/")) continue;
        for (RequestMethod method : info.getMethodsCondition().getMethods()) {
          mapped.add(new Operation(method.name(), path.replaceAll("\\{[^/]*}", "{}")));
          if (method == RequestMethod.GET)
            mapped.add(new Operation("HEAD", path.replaceAll("\\{[^/]*}", "{}")));
        }
      }
    }
    return mapped;
  }

  @Test
  void every_operation_of_curation_has_its_place_in_the_table_and_the_table_is_the_one_expected() {
    Set<Operation> unplaced = new LinkedHashSet<>(mapped());
    unplaced.removeIf(operation -> !operation.curation() || operation.method().equals("HEAD"));
    unplaced.removeAll(expected().keySet());
    assertThat(unplaced)
        .as("operations of which this test does not say who may call them")
        .isEmpty();

    Map<Operation, Set<String>> table = new LinkedHashMap<>();
    for (Right right : CurationRights.ALL) {
      Set<String> scopes = new TreeSet<>();
      right.anyOf().forEach(scope -> scopes.add(scope.word()));
      table.put(
          new Operation(right.method().name(), right.path().replaceAll("\\{[^/]*}", "{}")), scopes);
    }
    assertThat(table).containsExactlyInAnyOrderEntriesOf(expected());
  }

  @Test
  void the_contract_says_of_every_operation_what_is_expected() throws Exception {
    JsonNode document =
        JsonMapper.shared()
            .readTree(send(new Operation("GET", "/v3/api-docs"), Optional.empty()).body());
    List<String> seen = new ArrayList<>();
    document
        .get("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .properties()
                    .forEach(
                        operation -> {
                          Operation key =
                              new Operation(
                                  operation.getKey().toUpperCase(java.util.Locale.ROOT),
                                  path.getKey().replaceAll("\\{[^/]*}", "{}"));
                          Set<String> scopes = new TreeSet<>();
                          operation
                              .getValue()
                              .get("security")
                              .forEach(
                                  requirement ->
                                      requirement
                                          .properties()
                                          .forEach(
                                              scheme -> {
                                                assertThat(
                                                        document
                                                            .at(
                                                                "/components/securitySchemes/"
                                                                    + scheme.getKey()
                                                                    + "/scheme")
                                                            .asString())
                                                    .isEqualTo("bearer");
                                                assertThat(scheme.getValue().size())
                                                    .as("each alternative names one scope")
                                                    .isEqualTo(1);
                                                scopes.add(scheme.getValue().get(0).asString());
                                              }));
                          assertThat(scopes)
                              .as(key.toString())
                              .isEqualTo(key.curation() ? expected().get(key) : Set.of());
                          seen.add(key.toString());
                        }));
    assertThat(seen).hasSizeGreaterThan(10);
  }

  @TestFactory
  Stream<DynamicTest> every_operation_with_every_kind_of_token() throws Exception {
    Map<Operation, Set<String>> operations = new LinkedHashMap<>();
    expected()
        .forEach(
            (operation, scopes) -> {
              operations.put(operation, scopes);
              if (operation.method().equals("GET"))
                operations.put(new Operation("HEAD", operation.path()), scopes);
            });
    mapped()
        .forEach(
            operation -> {
              if (!operation.curation()) operations.put(operation, Set.of());
            });
    assertThat(operations).hasSizeGreaterThan(expected().size() + 10);
    return cases().entrySet().stream()
        .map(
            c ->
                DynamicTest.dynamicTest(
                    c.getKey(),
                    () -> {
                      List<String> wrong = new ArrayList<>();
                      for (Map.Entry<Operation, Set<String>> operation : operations.entrySet()) {
                        check(operation.getKey(), operation.getValue(), c.getValue())
                            .ifPresent(wrong::add);
                      }
                      assertThat(wrong).as(operations.size() + " operations").isEmpty();
                    }));
  }

  /** Empty when the answer is the expected one. */
  private Optional<String> check(Operation operation, Set<String> asked, Case given)
      throws Exception {
    HttpResponse<String> response = send(operation, given.token());
    int status = response.statusCode();
    String challenge = response.headers().firstValue("WWW-Authenticate").orElse("");
    String said = operation + " answered " + status + " " + challenge + " " + response.body();
    if (status >= 500) return Optional.of(said);
    if (asked.isEmpty())
      return status == 401 || status == 403
          ? Optional.of("open to all, but " + said)
          : Optional.empty();
    if (given.scopes().isEmpty()) {
      boolean told =
          given.token().isEmpty()
              ? challenge.equals("Bearer realm=\"understock\"")
              : challenge.contains("error=\"invalid_token\"");
      return status == 401 && told && problem(operation, response, "unauthorized")
          ? Optional.empty()
          : Optional.of("401 expected, but " + said);
    }
    boolean let = given.scopes().get().stream().anyMatch(asked::contains);
    if (let)
      return status == 401 || status == 403
          ? Optional.of("to be let in, but " + said)
          : Optional.empty();
    boolean told =
        challenge.contains("error=\"insufficient_scope\"")
            && asked.stream().anyMatch(scope -> challenge.contains("scope=\"" + scope + "\""))
            && (operation.method().equals("HEAD")
                || asked.stream().allMatch(response.body()::contains));
    return status == 403 && told && problem(operation, response, "forbidden")
        ? Optional.empty()
        : Optional.of("403 expected, but " + said);
  }

  private static boolean problem(Operation operation, HttpResponse<String> response, String type) {
    return response
            .headers()
            .firstValue("Content-Type")
            .orElse("")
            .startsWith("application/problem+json")
        && (operation.method().equals("HEAD")
            || response.body().contains("\"type\":\"/problems/" + type + "\""));
  }

  @Test
  void what_is_not_in_the_table_is_denied_to_everybody() throws Exception {
    String all = tokens().of("somebody", ALL_SCOPES);
    for (String line :
        List.of(
            "GET ",
            "GET /",
            "GET /nothing",
            "GET /records/",
            "GET /records/a/b",
            "DELETE /records/a",
            "PATCH /records/a",
            "POST /audit",
            "PUT /audit",
            "DELETE /audit",
            "OPTIONS /records",
            "GET /RECORDS")) {
      Operation operation =
          new Operation(line.split(" ")[0], "/v1/curation" + line.substring(line.indexOf(' ') + 1));
      assertThat(send(operation, Optional.empty()).statusCode())
          .as(operation + " without a token")
          .isEqualTo(401);
      assertThat(send(operation, Optional.of(all)).statusCode())
          .as(operation + " with all scopes")
          .isEqualTo(403);
    }
  }

  @Test
  void no_spelling_of_a_guarded_path_goes_round_the_door() throws Exception {
    for (String path :
        List.of(
            "/v1/curation;x=y/records",
            "/v1/curation/records;x=y",
            "/v1//curation/records",
            "/v1/./curation/records",
            "/v1/stocks/../curation/records",
            "/v1/%63uration/records",
            "/v1/curation%2Frecords",
            "/v1/curation/records%2F",
            "/V1/curation/records",
            "/v1/Curation/records",
            "/v1/curation/records.json")) {
      assertThat(send(new Operation("GET", path), Optional.empty()).statusCode())
          .as(path)
          .isIn(400, 401, 404);
    }
  }

  @Test
  void management_shows_health_and_nothing_else() throws Exception {
    for (String path :
        List.of("/actuator/health", "/actuator/health/readiness", "/actuator/health/liveness")) {
      HttpResponse<String> health = send(new Operation("GET", path), Optional.of("nonsense"));
      assertThat(health.statusCode()).as(path).isEqualTo(200);
      assertThat(health.body()).contains("UP").doesNotContain("components");
    }
    assertThat(send(new Operation("GET", "/actuator"), Optional.empty()).statusCode())
        .isEqualTo(401);
    for (String path :
        List.of(
            "/actuator/env",
            "/actuator/heapdump",
            "/actuator/metrics",
            "/actuator/shutdown",
            "/login",
            "/logout")) {
      assertThat(send(new Operation("GET", path), Optional.empty()).statusCode())
          .as(path)
          .isIn(401, 404);
    }
  }

  @Test
  void no_answer_sets_a_cookie_and_each_has_the_headers_that_keep_browsers_safe() throws Exception {
    for (String path :
        List.of(
            "/v1/crops",
            "/v1/curation/records",
            "/v1/nothing",
            "/problems",
            "/swagger-ui/index.html",
            "/v3/api-docs")) {
      HttpResponse<String> response = send(new Operation("GET", path), Optional.empty());
      assertThat(response.headers().map())
          .as(path)
          .doesNotContainKey("set-cookie")
          .containsKeys(
              "x-content-type-options",
              "x-frame-options",
              "referrer-policy",
              "content-security-policy");
    }
    assertThat(
            send(new Operation("GET", "/v1/crops"), Optional.empty())
                .headers()
                .firstValue("Cache-Control"))
        .hasValueSatisfying(v -> assertThat(v).contains("public"));
    assertThat(
            send(new Operation("GET", "/v1/curation/records"), Optional.of(tokens().proposer()))
                .headers()
                .firstValue("Cache-Control"))
        .hasValueSatisfying(v -> assertThat(v).contains("no-store"));
  }

  @Test
  void the_problems_have_pages() throws Exception {
    for (String type : List.of("unauthorized", "forbidden", "issuer-away")) {
      assertThat(send(new Operation("GET", "/problems/" + type), Optional.empty()).body())
          .contains("<h1>");
    }
  }

  private HttpResponse<String> send(Operation operation, Optional<String> token) throws Exception {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(
                URI.create("http://localhost:" + port() + operation.path().replace("{}", "x")))
            .method(operation.method(), HttpRequest.BodyPublishers.noBody());
    token.ifPresent(t -> request.header("Authorization", "Bearer " + t));
    return HTTP.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private Map<String, Case> cases() throws Exception {
    Map<String, Case> cases = new LinkedHashMap<>();
    Tokens own = tokens();
    ECKey key = own.key();
    ECKey other = new ECKeyGenerator(Curve.P_256).keyID(key.getKeyID()).generate();
    JWTClaimsSet good = own.good("somebody", ALL_SCOPES).build();
    Date past = Date.from(Instant.now().minusSeconds(7200));
    Date lately = Date.from(Instant.now().minusSeconds(3600));
    Date later = Date.from(Instant.now().plusSeconds(3600));
    cases.put("no token", new Case(Optional.empty(), Optional.empty()));
    bad(cases, "wrong signature", Tokens.signed(good, other));
    bad(
        cases,
        "wrong signature, another key's id",
        Tokens.signed(good, new ECKeyGenerator(Curve.P_256).keyID("other").generate()));
    bad(
        cases,
        "the key in the token's own header",
        signed(
            good,
            new JWSHeader.Builder(JWSAlgorithm.ES256).jwk(other.toPublicJWK()).build(),
            new ECDSASigner(other)));
    bad(
        cases,
        "claims changed after signing",
        tampered(own.of("somebody", "evidence:nothing"), good));
    bad(cases, "signature cut off", own.signed(good).replaceAll("[^.]*$", ""));
    bad(cases, "alg none", new PlainJWT(good).serialize());
    bad(
        cases,
        "alg NONE with the signature kept",
        own.signed(good)
            .replaceFirst(
                "^[^.]*",
                Base64.getUrlEncoder()
                    .withoutPadding()
                    .encodeToString("{\"alg\":\"NONE\"}".getBytes(StandardCharsets.UTF_8))));
    String pem =
        "-----BEGIN PUBLIC KEY-----\n"
            + Base64.getMimeEncoder(64, new byte[] {'\n'})
                .encodeToString(key.toECPublicKey().getEncoded())
            + "\n-----END PUBLIC KEY-----";
    Map<String, byte[]> secrets =
        Map.of(
            "JWK",
            key.toPublicJWK().toJSONString().getBytes(StandardCharsets.UTF_8),
            "PEM",
            pem.getBytes(StandardCharsets.UTF_8),
            "DER",
            key.toECPublicKey().getEncoded());
    for (Map.Entry<String, byte[]> secret : secrets.entrySet()) {
      bad(
          cases,
          "HS256 with the public key (" + secret.getKey() + ") as secret",
          signed(
              good,
              new JWSHeader.Builder(JWSAlgorithm.HS256).keyID(key.getKeyID()).build(),
              new MACSigner(secret.getValue())));
    }
    bad(
        cases,
        "expired",
        own.signed(
            own.good("somebody", ALL_SCOPES)
                .issueTime(past)
                .notBeforeTime(past)
                .expirationTime(lately)
                .build()));
    bad(
        cases,
        "without an end",
        own.signed(own.good("somebody", ALL_SCOPES).expirationTime(null).build()));
    bad(
        cases,
        "not yet valid",
        own.signed(
            own.good("somebody", ALL_SCOPES)
                .notBeforeTime(later)
                .expirationTime(Date.from(later.toInstant().plusSeconds(60)))
                .build()));
    bad(
        cases,
        "wrong audience",
        own.signed(own.good("somebody", ALL_SCOPES).audience("understock-elsewhere").build()));
    bad(
        cases,
        "no audience",
        own.signed(own.good("somebody", ALL_SCOPES).audience((String) null).build()));
    bad(
        cases,
        "wrong issuer",
        own.signed(own.good("somebody", ALL_SCOPES).issuer("https://elsewhere.example").build()));
    bad(cases, "no issuer", own.signed(own.good("somebody", ALL_SCOPES).issuer(null).build()));
    bad(cases, "of nobody", own.signed(own.good("somebody", ALL_SCOPES).subject(null).build()));
    bad(cases, "of a blank subject", own.signed(own.good(" ", ALL_SCOPES).build()));
    bad(
        cases,
        "an identity token's type",
        signed(
            good,
            new JWSHeader.Builder(JWSAlgorithm.ES256)
                .keyID(key.getKeyID())
                .type(new JOSEObjectType("logout+jwt"))
                .build(),
            new ECDSASigner(key)));
    for (String malformed :
        List.of("nonsense", "a.b.c", "..", "!", "e30.e30.e30", "x".repeat(4000))) {
      bad(cases, "malformed " + malformed.substring(0, 1) + malformed.length(), malformed);
    }

    good(cases, "no scope", own.signed(own.good("somebody", "").claim("scope", null).build()));
    good(
        cases,
        "scopes that mean nothing here",
        own.of("somebody", "evidence evidence:* evidence:propose2 EVIDENCE:PROPOSE openid admin"));
    good(cases, "propose", own.proposer(), "evidence:propose");
    good(cases, "review", own.reviewer(), "evidence:review");
    good(cases, "admin", own.admin(), "evidence:admin");
    good(cases, "all scopes", own.of("somebody", ALL_SCOPES), ALL_SCOPES.split(" "));
    good(
        cases,
        "propose as a list in scp",
        own.signed(
            own.good("somebody", "")
                .claim("scope", null)
                .claim("scp", List.of("openid", "evidence:propose"))
                .build()),
        "evidence:propose");
    good(
        cases,
        "review of type at+jwt, one audience of two",
        signed(
            own.good("somebody", "evidence:review").audience(List.of("else", "understock")).build(),
            new JWSHeader.Builder(JWSAlgorithm.ES256)
                .keyID(key.getKeyID())
                .type(new JOSEObjectType("at+jwt"))
                .build(),
            new ECDSASigner(key)),
        "evidence:review");
    return cases;
  }

  private static void bad(Map<String, Case> cases, String name, String token) {
    cases.put(name, new Case(Optional.of(token), Optional.empty()));
  }

  private static void good(Map<String, Case> cases, String name, String token, String... scopes) {
    cases.put(name, new Case(Optional.of(token), Optional.of(Set.of(scopes))));
  }

  private static String tampered(String token, JWTClaimsSet claims) {
    String[] parts = token.split("\\.");
    byte[] changed = claims.toString().getBytes(StandardCharsets.UTF_8);
    return parts[0]
        + "."
        + Base64.getUrlEncoder().withoutPadding().encodeToString(changed)
        + "."
        + parts[2];
  }

  private static String signed(JWTClaimsSet claims, JWSHeader header, JWSSigner signer)
      throws JOSEException {
    SignedJWT token = new SignedJWT(header, claims);
    token.sign(signer);
    return token.serialize();
  }
}
