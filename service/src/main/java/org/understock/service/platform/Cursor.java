package org.understock.service.platform;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.Base64;
import java.util.Optional;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Where a walk over a list stands: the revision it is pinned to, the list it belongs to, and the
 * last item that was given.
 *
 * <p>On the wire it is base64url of the three and the first 128 bits of their HMAC-SHA-256, so that
 * a damaged, made-up or foreign cursor is told from a real one. The key is made from the digest of
 * the first revision: the same in every replica and after a restart. It guards nothing secret.
 *
 * @param list path and filters of the list, without cursor, limit and revision
 * @param after key of the last item given
 */
public record Cursor(long revision, String list, String after) {
  private static final int MARK_BYTES = 16;
  private static final int LIST_BYTES = 8;

  public String written(String secret) {
    byte[] key = after.getBytes(StandardCharsets.UTF_8);
    ByteBuffer body = ByteBuffer.allocate(Long.BYTES + LIST_BYTES + key.length);
    body.putLong(revision).put(digest(list)).put(key);
    byte[] mark = mark(body.array(), secret);
    ByteBuffer all = ByteBuffer.allocate(MARK_BYTES + body.capacity());
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(all.put(mark).put(body.array()).array());
  }

  /**
   * The cursor that a text stands for; empty when the text was not written by {@link #written} with
   * this secret for this list.
   */
  public static Optional<Cursor> read(String text, String list, String secret) {
    byte[] all;
    try {
      all = Base64.getUrlDecoder().decode(text);
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
    if (all.length < MARK_BYTES + Long.BYTES + LIST_BYTES) return Optional.empty();
    byte[] body = Arrays.copyOfRange(all, MARK_BYTES, all.length);
    if (!MessageDigest.isEqual(mark(body, secret), Arrays.copyOf(all, MARK_BYTES)))
      return Optional.empty();
    ByteBuffer in = ByteBuffer.wrap(body);
    long revision = in.getLong();
    byte[] of = new byte[LIST_BYTES];
    in.get(of);
    if (!Arrays.equals(of, digest(list))) return Optional.empty();
    try {
      return Optional.of(
          new Cursor(revision, list, StandardCharsets.UTF_8.newDecoder().decode(in).toString()));
    } catch (CharacterCodingException e) {
      return Optional.empty();
    }
  }

  private static byte[] digest(String text) {
    try {
      return Arrays.copyOf(
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)),
          LIST_BYTES);
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }

  private static byte[] mark(byte[] body, String secret) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(
          new SecretKeySpec(
              ("understock cursor " + secret).getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
      return Arrays.copyOf(mac.doFinal(body), MARK_BYTES);
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java runtime has HmacSHA256", e);
    }
  }
}
