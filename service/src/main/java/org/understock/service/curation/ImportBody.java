package org.understock.service.curation;

import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.Reader;
import java.io.Writer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * A body that is to be imported, taken to a file, so that it can be read twice and never lies in
 * memory. What is declared to be in another encoding is turned into UTF-8; nothing is guessed, so a
 * declaration that the bytes contradict is refused.
 */
final class ImportBody implements AutoCloseable {
  private final Path file;
  private final long bytes;
  private final String digest;

  private ImportBody(Path file, long bytes, String digest) {
    this.file = file;
    this.bytes = bytes;
    this.digest = digest;
  }

  /**
   * @param declared the encoding that the request names; null when it names none, which means UTF-8
   */
  static ImportBody take(InputStream body, @Nullable Charset declared) throws IOException {
    Path file = Files.createTempFile("understock-import-", ".tmp");
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      long bytes;
      try (InputStream in = new DigestInputStream(body, sha);
          OutputStream out = Files.newOutputStream(file)) {
        bytes = in.transferTo(out);
      }
      if (declared != null && !declared.equals(StandardCharsets.UTF_8)) transcode(file, declared);
      return new ImportBody(file, bytes, HexFormat.of().formatHex(sha.digest()));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    } catch (IOException | RuntimeException e) {
      Files.deleteIfExists(file);
      throw e;
    }
  }

  private static void transcode(Path file, Charset declared) throws IOException {
    if (isAscii(file))
      return; // the same in every encoding that a file of text comes in, but for UTF-16, which is
    // full of zeros
    if (canBe(file, StandardCharsets.UTF_8)) {
      throw encoding(
          "The Content-Type says "
              + declared.name()
              + ", but the file is UTF-8; send it as charset=UTF-8.");
    }
    Path other = Files.createTempFile("understock-import-", ".tmp");
    try {
      try (Reader in = strict(file, declared);
          Writer out = Files.newBufferedWriter(other, StandardCharsets.UTF_8)) {
        in.transferTo(out);
      } catch (CharacterCodingException e) {
        throw encoding(
            "The file holds bytes that are not "
                + declared.name()
                + ", as the Content-Type says it is.");
      }
      Files.move(other, file, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(other);
    }
  }

  private static boolean isAscii(Path file) throws IOException {
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file), 1 << 16)) {
      for (int b = in.read(); b >= 0; b = in.read()) if (b >= 0x80 || b == 0) return false;
      return true;
    }
  }

  private static boolean canBe(Path file, Charset charset) throws IOException {
    try (Reader in = strict(file, charset)) {
      in.transferTo(Writer.nullWriter());
      return true;
    } catch (CharacterCodingException e) {
      return false;
    }
  }

  /** A reader that throws at the first byte that does not belong. */
  private static Reader strict(Path file, Charset charset) throws IOException {
    return new BufferedReader(
        new InputStreamReader(Files.newInputStream(file), charset.newDecoder()));
  }

  private static ProblemException encoding(String detail) {
    return ProblemException.of(ProblemType.INVALID_REQUEST, detail, List.of());
  }

  Path file() {
    return file;
  }

  /** Length as it was sent. */
  long bytes() {
    return bytes;
  }

  /** Hexadecimal SHA-256 of the bytes as they were sent. */
  String digest() {
    return digest;
  }

  @Override
  public void close() throws IOException {
    Files.deleteIfExists(file);
  }
}
