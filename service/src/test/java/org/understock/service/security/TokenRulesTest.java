package org.understock.service.security;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.ECDSASigner;
import com.nimbusds.jose.crypto.RSASSASigner;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.OctetSequenceKey;
import com.nimbusds.jose.jwk.RSAKey;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import com.nimbusds.jose.jwk.gen.RSAKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.Key;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Date;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.security.oauth2.jwt.BadJwtException;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.jwt.JwtException;

/**
 * Keys in every form in which they can be configured, and an issuer that is looked up, away, or
 * another.
 */
class TokenRulesTest {
  @TempDir private Path folder;
  private HttpServer issuer;
  private volatile String published = "";

  @BeforeEach
  void issuerStands() throws IOException {
    issuer = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    issuer.createContext(
        "/",
        exchange -> {
          String body =
              exchange.getRequestURI().getPath().equals("/.well-known/openid-configuration")
                  ? "{\"issuer\":\""
                      + address()
                      + "\",\"jwks_uri\":\""
                      + address()
                      + "/keys\",\"subject_types_supported\":[\"public\"]}"
                  : published;
          byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
          exchange.getResponseHeaders().set("Content-Type", "application/json");
          exchange.sendResponseHeaders(published.isEmpty() ? 503 : 200, bytes.length);
          exchange.getResponseBody().write(bytes);
          exchange.close();
        });
    issuer.start();
  }

  @AfterEach
  void issuerGoes() {
    issuer.stop(0);
  }

  private String address() {
    return "http://localhost:" + issuer.getAddress().getPort();
  }

  private static JwtDecoder rules(String issuer, String key) {
    return TokenRules.configured(
        new AccessSettings(issuer, key, List.of("understock"), Duration.ofHours(8)));
  }

  private String file(String text) throws IOException {
    return Files.writeString(Files.createTempFile(folder, "key", ""), text).toString();
  }

  private static String pem(String kind, Key key) {
    String base64 = Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(key.getEncoded());
    return "-----BEGIN " + kind + " KEY-----\n" + base64 + "\n-----END " + kind + " KEY-----\n";
  }

  private static String token(JWK key, String issuer) throws Exception {
    Date end = Date.from(Instant.now().plusSeconds(600));
    JWTClaimsSet claims =
        new JWTClaimsSet.Builder()
            .issuer(issuer)
            .subject("somebody")
            .audience("understock")
            .expirationTime(end)
            .build();
    boolean rsa = key instanceof RSAKey;
    JWSAlgorithm algorithm =
        rsa
            ? JWSAlgorithm.RS256
            : key.toECKey().getCurve().equals(Curve.P_384)
                ? JWSAlgorithm.ES384
                : JWSAlgorithm.ES256;
    SignedJWT token =
        new SignedJWT(new JWSHeader.Builder(algorithm).keyID(key.getKeyID()).build(), claims);
    token.sign(rsa ? new RSASSASigner(key.toRSAKey()) : new ECDSASigner(key.toECKey()));
    return token.serialize();
  }

  @Test
  void a_key_is_read_from_pem_from_a_jwk_and_from_a_set() throws Exception {
    RSAKey rsa = new RSAKeyGenerator(2048).keyID("rsa").generate();
    ECKey ec = new ECKeyGenerator(Curve.P_384).keyID("ec").generate();
    String stranger = token(new ECKeyGenerator(Curve.P_384).keyID("ec").generate(), null);
    for (String location :
        List.of(
            file(pem("PUBLIC", rsa.toRSAPublicKey())),
            file(rsa.toPublicJWK().toJSONString()),
            file(new JWKSet(List.of(ec, rsa)).toString()),
            "file:" + file(rsa.toPublicJWK().toJSONString()))) {
      assertThat(rules(null, location).decode(token(rsa, "https://any.example")).getSubject())
          .isEqualTo("somebody");
      assertThatThrownBy(() -> rules(null, location).decode(stranger))
          .isInstanceOf(BadJwtException.class);
    }
    for (String location :
        List.of(
            file(pem("PUBLIC", ec.toECPublicKey())),
            file(new JWKSet(List.of(ec, rsa)).toString()))) {
      assertThat(rules(null, location).decode(token(ec, null)).getSubject()).isEqualTo("somebody");
    }
  }

  @Test
  void what_is_no_public_key_is_refused_before_the_service_starts() throws Exception {
    RSAKey short1024 = new RSAKeyGenerator(1024, true).generate();
    RSAKey rsa = new RSAKeyGenerator(2048).generate();
    String secret = new JWKSet(new OctetSequenceKey.Builder(new byte[32]).build()).toString(false);
    for (String location :
        List.of(
            file(""),
            file("{}"),
            file("{\"keys\":[]}"),
            file("nonsense"),
            file(pem("PRIVATE", rsa.toRSAPrivateKey())),
            file(secret),
            file(pem("PUBLIC", short1024.toRSAPublicKey())),
            file("-----BEGIN PUBLIC KEY-----\nAAAA\n-----END PUBLIC KEY-----"),
            folder.resolve("none").toString(),
            folder.toString(),
            "classpath:no/such/key")) {
      assertThatThrownBy(() -> PublicKeys.at(location))
          .as(location)
          .isInstanceOf(AccessFault.class);
    }
  }

  @Test
  void with_a_key_and_an_issuer_both_must_fit() throws Exception {
    ECKey key = new ECKeyGenerator(Curve.P_256).generate();
    JwtDecoder rules = rules("https://id.example.org", file(key.toPublicJWK().toJSONString()));
    assertThat(rules.decode(token(key, "https://id.example.org")).getSubject())
        .isEqualTo("somebody");
    String elsewhere = token(key, "https://id.example.org/");
    assertThatThrownBy(() -> rules.decode(elsewhere)).isInstanceOf(BadJwtException.class);
  }

  @Test
  void an_issuer_is_looked_up_when_the_first_token_comes_and_again_while_it_is_away()
      throws Exception {
    ECKey key = new ECKeyGenerator(Curve.P_256).keyID("a").generate();
    for (JwtDecoder rules :
        List.of(rules(address(), null), rules(address(), address() + "/keys"))) {
      String good = token(key, address());
      published = "";
      assertThatThrownBy(() -> rules.decode(good))
          .isInstanceOf(JwtException.class)
          .isNotInstanceOf(BadJwtException.class);
      published = new JWKSet(key).toString();
      assertThat(rules.decode(good).getSubject()).isEqualTo("somebody");
      String elsewhere = token(key, "https://elsewhere.example");
      assertThatThrownBy(() -> rules.decode(elsewhere)).isInstanceOf(BadJwtException.class);
      String stranger = token(new ECKeyGenerator(Curve.P_256).keyID("a").generate(), address());
      assertThatThrownBy(() -> rules.decode(stranger)).isInstanceOf(BadJwtException.class);
    }
  }

  @Test
  void a_key_that_the_issuer_turned_to_is_fetched() throws Exception {
    ECKey before = new ECKeyGenerator(Curve.P_256).keyID("before").generate();
    RSAKey after = new RSAKeyGenerator(2048).keyID("after").generate();
    published = new JWKSet(before).toString();
    JwtDecoder rules = rules(null, address() + "/keys");
    assertThat(rules.decode(token(before, null)).getSubject()).isEqualTo("somebody");
    published = new JWKSet(after).toString();
    assertThat(rules.decode(token(after, null)).getSubject()).isEqualTo("somebody");
  }
}
