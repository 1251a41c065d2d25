package org.understock.service.security;

import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.RSAKey;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.interfaces.ECPublicKey;
import java.security.interfaces.RSAPublicKey;
import java.security.spec.InvalidKeySpecException;
import java.security.spec.X509EncodedKeySpec;
import java.text.ParseException;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.springframework.core.io.DefaultResourceLoader;
import org.springframework.core.io.FileSystemResource;
import org.springframework.core.io.Resource;

/**
 * Reads public keys from a file: a JWK set, a single JWK, or PEM (RSA or EC). What is private or
 * secret in a JWK set is left aside.
 */
final class PublicKeys {
  private static final Pattern PEM =
      Pattern.compile("-----BEGIN PUBLIC KEY-----([A-Za-z0-9+/=\\s]+)-----END PUBLIC KEY-----");
  private static final int LEAST_RSA_BITS = 2048; // RFC 7518, section 3.3
  private static final String CURE =
      "Let understock.security.key name a readable file with a JWK set, a JWK or a PEM public key (RSA of 2048 bits "
          + "or more, or EC on P-256, P-384 or P-521), or the http(s) address of a JWK set.";

  private PublicKeys() {}

  /**
   * @throws AccessFault when there is no usable public key
   */
  static JWKSet at(String location) {
    Resource file =
        location.matches("[A-Za-z]{2,}:.*")
            ? new DefaultResourceLoader().getResource(location)
            : new FileSystemResource(location);
    JWKSet keys;
    try {
      keys = parse(file.getContentAsString(StandardCharsets.UTF_8).strip()).toPublicJWKSet();
    } catch (IOException e) {
      throw new AccessFault(
          "The public key at " + location + " can't be read: " + e.getMessage(), CURE);
    } catch (ParseException | GeneralSecurityException | IllegalArgumentException e) {
      throw new AccessFault(
          "What is at " + location + " is not a public key: " + e.getMessage(), CURE);
    }
    if (keys.isEmpty()) throw new AccessFault("There is no public key in " + location + ".", CURE);
    for (JWK key : keys.getKeys()) {
      if (key instanceof RSAKey rsa && rsa.size() < LEAST_RSA_BITS) {
        throw new AccessFault("A key in " + location + " has only " + rsa.size() + " bits.", CURE);
      }
    }
    return keys;
  }

  private static JWKSet parse(String text) throws ParseException, GeneralSecurityException {
    if (text.startsWith("{"))
      return text.contains("\"keys\"") ? JWKSet.parse(text) : new JWKSet(JWK.parse(text));
    Matcher pem = PEM.matcher(text);
    if (!pem.find())
      throw new IllegalArgumentException("it holds neither JSON nor '-----BEGIN PUBLIC KEY-----'");
    X509EncodedKeySpec encoded =
        new X509EncodedKeySpec(Base64.getMimeDecoder().decode(pem.group(1)));
    try {
      return new JWKSet(
          new RSAKey.Builder((RSAPublicKey) KeyFactory.getInstance("RSA").generatePublic(encoded))
              .build());
    } catch (InvalidKeySpecException e) {
      ECPublicKey key = (ECPublicKey) KeyFactory.getInstance("EC").generatePublic(encoded);
      return new JWKSet(new ECKey.Builder(Curve.forECParameterSpec(key.getParams()), key).build());
    }
  }
}
