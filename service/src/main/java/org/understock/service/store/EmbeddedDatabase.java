package org.understock.service.store;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;

/**
 * The PostgreSQL server that runs when no other is configured. It is durable: what was committed
 * survives a stop and a killed process. One process at a time may hold a home folder.
 *
 * <p>In the folder: {@code postgres-17} the data, {@code postgres-17.lock} held while a process
 * uses them, {@code postgres-17.password} the password that the server asks for, readable by the
 * owner only, {@code server} the unpacked binaries.
 */
final class EmbeddedDatabase implements JdbcConnectionDetails, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(EmbeddedDatabase.class);
  private static final String NAME = "understock";
  private static final String USER = "postgres";
  private static final String FOLDER =
      "postgres-17"; // data of another major version can't be opened
  private static final int PASSWORD_BYTES = 24;
  private static final Duration START_WITHIN = Duration.ofSeconds(60);
  private static final long STOP_WITHIN_S = 20;

  private final FileChannel lockFile;
  private final EmbeddedPostgres server;
  private final String password;

  private EmbeddedDatabase(FileChannel lockFile, EmbeddedPostgres server, String password) {
    this.lockFile = lockFile;
    this.server = server;
    this.password = password;
  }

  /**
   * Starts the server on a free port of the loopback interface, making its data folder on the first
   * start.
   *
   * @throws IllegalStateException when another process holds the folder
   * @throws UncheckedIOException when the folder can't be written or the server doesn't start
   */
  static EmbeddedDatabase start(Path home) {
    try {
      Files.createDirectories(home);
      FileChannel lockFile = lock(home.resolve(FOLDER + ".lock"));
      try {
        Path folder = home.resolve(FOLDER);
        stopOrphan(folder);
        String password = password(home.resolve(FOLDER + ".password"), folder);
        EmbeddedPostgres server = serverOn(home, folder, password);
        EmbeddedDatabase started = new EmbeddedDatabase(lockFile, server, password);
        started.createDatabase();
        LOG.info("Embedded PostgreSQL on port {}, data in {}", server.getPort(), folder);
        return started;
      } catch (IOException | RuntimeException e) {
        lockFile.close();
        throw e;
      }
    } catch (IOException e) {
      throw new UncheckedIOException(
          "the embedded database in " + home + " can't be started: " + e.getMessage(), e);
    }
  }

  private static FileChannel lock(Path path) throws IOException {
    FileChannel channel =
        FileChannel.open(path, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    FileLock lock;
    try {
      lock = channel.tryLock();
    } catch (OverlappingFileLockException e) {
      lock = null; // held by this very process
    }
    if (lock == null) {
      channel.close();
      throw new IllegalStateException(
          "the embedded database in "
              + path.getParent()
              + " is in use by another running service: stop that one, or set "
              + "understock.home to another folder, or set SPRING_DATASOURCE_URL to a PostgreSQL server that several can share");
    }
    return channel;
  }

  /*
   * A killed process leaves its server running, and a second server on the same folder is refused. We hold the lock, so whatever server is named in the
   * pid file belongs to nobody any more.
   */
  private static void stopOrphan(Path folder) throws IOException {
    Path pidFile = folder.resolve("postmaster.pid");
    if (!Files.exists(pidFile)) return;
    List<String> lines = Files.readAllLines(pidFile);
    Optional<ProcessHandle> orphan =
        lines.isEmpty() ? Optional.empty() : ProcessHandle.of(Long.parseLong(lines.get(0).strip()));
    if (orphan.isEmpty()
        || !orphan.get().info().command().map(EmbeddedDatabase::isPostgres).orElse(false)) return;
    LOG.warn(
        "Stopping the database server {} that a killed process left behind", orphan.get().pid());
    orphan.get().destroy();
    try {
      orphan.get().onExit().get(STOP_WITHIN_S, TimeUnit.SECONDS);
    } catch (TimeoutException e) {
      orphan.get().destroyForcibly();
      orphan.get().onExit().join();
    } catch (ExecutionException e) {
      throw new IOException("server process " + orphan.get().pid() + " can't be stopped", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException(
          "interrupted while server process " + orphan.get().pid() + " stopped", e);
    }
  }

  private static boolean isPostgres(String command) {
    return Path.of(command).getFileName().toString().matches("postgres(\\.exe)?");
  }

  /** Made once, before the data folder is; later starts read it. */
  private static String password(Path file, Path folder) throws IOException {
    if (Files.exists(file)) return Files.readString(file).strip();
    if (Files.exists(folder.resolve("PG_VERSION")))
      throw new IOException(file + " is missing: without it " + folder + " can't be opened");
    byte[] random = new byte[PASSWORD_BYTES];
    new SecureRandom().nextBytes(random);
    if (file.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      Files.createFile(
          file, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    }
    String made = HexFormat.of().formatHex(random);
    Files.writeString(file, made);
    return made;
  }

  private static EmbeddedPostgres serverOn(Path home, Path folder, String password)
      throws IOException {
    return EmbeddedPostgres.builder()
        // The library deletes stale data folders directly below its working folder: ours must not
        // lie there.
        .setOverrideWorkingDirectory(home.resolve("server").toFile())
        .setDataDirectory(folder)
        .setCleanDataDirectory(false)
        .setRegisterShutdownHook(false) // Spring closes it after the connection pool
        .setPGStartupWait(START_WITHIN)
        // The library starts servers for tests, without durability.
        .setServerConfig("fsync", "on")
        .setServerConfig("synchronous_commit", "on")
        .setServerConfig("full_page_writes", "on")
        // It also trusts everybody on the machine; ours asks for a password.
        .setLocaleConfig("auth-host", "scram-sha-256")
        .setLocaleConfig("auth-local", "scram-sha-256")
        .setLocaleConfig("pwfile", home.resolve(FOLDER + ".password").toString())
        .setConnectConfig("password", password)
        // The same on every machine, whatever locales it has.
        .setLocaleConfig("locale-provider", "builtin")
        .setLocaleConfig("builtin-locale", "C.UTF-8")
        .setLocaleConfig("locale", "C")
        .start();
  }

  private void createDatabase() throws IOException {
    try (Connection connection = DriverManager.getConnection(url("postgres"), USER, password);
        Statement statement = connection.createStatement()) {
      try (ResultSet rows =
          statement.executeQuery("select from pg_database where datname = '" + NAME + "'")) {
        if (rows.next()) return;
      }
      statement.execute("create database " + NAME);
    } catch (SQLException e) {
      server.close();
      throw new IOException("database " + NAME + " can't be made", e);
    }
  }

  @Override
  public String getUsername() {
    return USER;
  }

  @Override
  public String getPassword() {
    return password;
  }

  @Override
  public String getJdbcUrl() {
    return url(NAME);
  }

  private String url(String database) {
    return "jdbc:postgresql://localhost:" + server.getPort() + "/" + database;
  }

  @Override
  public void close() throws IOException {
    try (lockFile) {
      server.close();
    }
  }
}
