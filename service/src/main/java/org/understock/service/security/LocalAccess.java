package org.understock.service.security;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JOSEObjectType;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.ECDSASigner;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.text.ParseException;
import java.time.Duration;
import java.time.Instant;
import java.util.Date;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;

/**
 * The service as its own issuer, for a newcomer on the embedded database: a key made at the first
 * start and kept, and one token per scope at every start, each of another person, so that four eyes
 * are needed here too.
 *
 * <p>In the folder {@code access} of the home: {@code key.json} the private key, {@code tokens} the
 * tokens of the latest start; readable by the owner only.
 */
final class LocalAccess {
  static final String ISSUER = "urn:understock:local";

  private static final Map<Scope, String> SUBJECTS =
      Map.of(
          Scope.PROPOSE,
          "local-proposer",
          Scope.REVIEW,
          "local-reviewer",
          Scope.ADMIN,
          "local-admin");
  private static final Set<PosixFilePermission> OTHERS =
      EnumSet.of(
          PosixFilePermission.GROUP_READ,
          PosixFilePermission.GROUP_WRITE,
          PosixFilePermission.OTHERS_READ,
          PosixFilePermission.OTHERS_WRITE);

  private final Path folder;
  private final ECKey key;

  private LocalAccess(Path folder, ECKey key) {
    this.folder = folder;
    this.key = key;
  }

  /**
   * Reads the key, or makes it at the first start. Only one process at a time may use a home.
   *
   * @throws AccessFault when others than the owner may read the key, or the file holds none
   * @throws UncheckedIOException when the folder can't be written
   */
  static LocalAccess in(Path home) {
    Path folder = home.resolve("access");
    Path file = folder.resolve("key.json");
    try {
      Files.createDirectories(home);
      if (!Files.isDirectory(folder)) Files.createDirectory(folder, owned(home, "rwx------"));
      if (!Files.exists(file))
        write(
            file,
            new ECKeyGenerator(Curve.P_256)
                .keyID(UUID.randomUUID().toString())
                .generate()
                .toJSONString());
      if (posix(file) && Files.getPosixFilePermissions(file).stream().anyMatch(OTHERS::contains)) {
        throw new AccessFault(
            "The private key "
                + file
                + " can be read or written by others than its owner: anybody may have made tokens with it.",
            "Delete it: a new one is made at the next start, and tokens made with the old one end. Or, if you trust it, chmod 600 it.");
      }
      return new LocalAccess(folder, ECKey.parse(Files.readString(file)));
    } catch (ParseException e) {
      throw new AccessFault(
          "The file " + file + " does not hold the key that was written to it.",
          "Delete it: a new one is made at the next start.");
    } catch (IOException e) {
      throw new UncheckedIOException(
          "the key in " + folder + " can't be read or made: " + e.getMessage(), e);
    } catch (JOSEException e) {
      throw new IllegalStateException("no key can be made", e);
    }
  }

  JWKSet publicKeys() {
    return new JWKSet(key.toPublicJWK());
  }

  /**
   * Makes a token per scope and keeps them in the file, in place of earlier ones.
   *
   * @return lines {@code evidence:propose token: …}, as they stand in the file
   */
  List<String> issue(List<String> audience, Duration lifetime, Instant now) {
    List<String> lines =
        SUBJECTS.keySet().stream()
            .sorted()
            .map(scope -> scope.word() + " token: " + token(scope, audience, lifetime, now))
            .toList();
    try {
      write(tokensFile(), String.join("\n", lines) + "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(
          "the tokens can't be written to " + folder + ": " + e.getMessage(), e);
    }
    return lines;
  }

  Path tokensFile() {
    return folder.resolve("tokens");
  }

  private String token(Scope scope, List<String> audience, Duration lifetime, Instant now) {
    JWTClaimsSet claims =
        new JWTClaimsSet.Builder()
            .issuer(ISSUER)
            .subject(SUBJECTS.get(scope))
            .audience(audience)
            .claim("scope", scope.word())
            .issueTime(Date.from(now))
            .notBeforeTime(Date.from(now))
            .expirationTime(Date.from(now.plus(lifetime)))
            .jwtID(UUID.randomUUID().toString())
            .build();
    SignedJWT token =
        new SignedJWT(
            new JWSHeader.Builder(JWSAlgorithm.ES256)
                .type(JOSEObjectType.JWT)
                .keyID(key.getKeyID())
                .build(),
            claims);
    try {
      token.sign(new ECDSASigner(key));
    } catch (JOSEException e) {
      throw new IllegalStateException("the key can't sign", e);
    }
    return token.serialize();
  }

  /** Whole or not at all, and never, not even for a moment, open to others. */
  private static void write(Path file, String text) throws IOException {
    Path folder = Objects.requireNonNull(file.getParent());
    Path fresh =
        Files.createTempFile(
            folder, file.getFileName().toString(), ".new", owned(folder, "rw-------"));
    try {
      Files.writeString(fresh, text);
      Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(fresh);
    }
  }

  private static FileAttribute<?>[] owned(Path where, String permissions) {
    if (!posix(where)) return new FileAttribute<?>[0];
    return new FileAttribute<?>[] {
      PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString(permissions))
    };
  }

  private static boolean posix(Path path) {
    return path.getFileSystem().supportedFileAttributeViews().contains("posix");
  }
}
