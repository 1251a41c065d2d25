package org.understock.service;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.ECDSASigner;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.ParseException;
import java.time.Instant;
import java.util.Date;

/**
 * Makes tokens with the key of the service under test: the one that it made in its home. Each role
 * is another person.
 */
public final class Tokens {
  /** The issuer that the service under test knows. */
  public static final String ISSUER = "urn:understock:local";

  private final ECKey key;

  private Tokens(ECKey key) {
    this.key = key;
  }

  /** With the key in a service's home. */
  public static Tokens ofHome(Path home) {
    try {
      return new Tokens(ECKey.parse(Files.readString(keyFile(home))));
    } catch (IOException | ParseException e) {
      throw new AssertionError("the service has no key in " + home, e);
    }
  }

  /** Puts a key where the service would put its own, for a service that must be told its key. */
  public static Path makeKey(Path home) throws IOException, JOSEException {
    Files.createDirectories(keyFile(home).getParent());
    return Files.writeString(
        keyFile(home), new ECKeyGenerator(Curve.P_256).keyID("test").generate().toJSONString());
  }

  private static Path keyFile(Path home) {
    return home.resolve("access/key.json");
  }

  /** Good for proposing only. */
  public String proposer() {
    return of("test-proposer", "evidence:propose");
  }

  /** Good for reviewing only. */
  public String reviewer() {
    return of("test-reviewer", "evidence:review");
  }

  /** Good for administration only. */
  public String admin() {
    return of("test-admin", "evidence:admin");
  }

  /** Somebody's good token with so many scopes, separated by spaces. */
  public String of(String subject, String scopes) {
    return signed(good(subject, scopes).build());
  }

  /** The claims of a good token, to be spoilt. */
  public JWTClaimsSet.Builder good(String subject, String scopes) {
    Instant now = Instant.now();
    return new JWTClaimsSet.Builder()
        .issuer(ISSUER)
        .subject(subject)
        .audience("understock")
        .claim("scope", scopes)
        .issueTime(Date.from(now))
        .notBeforeTime(Date.from(now))
        .expirationTime(Date.from(now.plusSeconds(600)));
  }

  /** Claims, signed with the service's key. */
  public String signed(JWTClaimsSet claims) {
    return signed(claims, key);
  }

  /** Claims, signed with any key. */
  public static String signed(JWTClaimsSet claims, ECKey key) {
    try {
      SignedJWT token =
          new SignedJWT(
              new JWSHeader.Builder(JWSAlgorithm.ES256).keyID(key.getKeyID()).build(), claims);
      token.sign(new ECDSASigner(key));
      return token.serialize();
    } catch (JOSEException e) {
      throw new AssertionError(e);
    }
  }

  /** The service's key. */
  public ECKey key() {
    return key;
  }
}
