package org.understock.service.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/**
 * Tests in Chromium; skipped, with a line in the log, where it or its driver is not installed. One
 * browser serves a whole class.
 */
@Tag("browser")
@TestPropertySource(properties = "understock.cors.allowed-origins=http://127.0.0.1:[*]")
abstract class InBrowser extends RunningService {
  private static @Nullable Browser shared;
  private @Nullable HostPage host;

  @BeforeEach
  void open() {
    if (!Browser.isInstalled()) {
      System.out.println(
          "SKIPPED: tests in the browser need chromium and chromedriver on the path (Debian: chromium, chromium-driver).");
      Assumptions.abort("no chromium and chromedriver on the path");
    }
    if (shared == null) shared = Browser.open();
    host = new HostPage(port());
    // What one test typed is not there in the next: each has a host of another port, hence another
    // origin.
    browser().window(1280, 900, false);
    browser().dark(false);
    browser().anyNetwork();
    browser().errors();
  }

  @AfterEach
  void leave() {
    if (host != null) host.close();
    if (shared == null) return;
    // A test that opened no page stands on one without storage.
    shared.js("if (location.protocol.startsWith('http')) sessionStorage.clear()");
    shared.go("about:blank");
  }

  @AfterAll
  static void close() {
    if (shared != null) shared.close();
    shared = null;
  }

  protected Browser browser() {
    return Objects.requireNonNull(shared);
  }

  protected HostPage host() {
    return Objects.requireNonNull(host);
  }

  protected String own(String path) {
    return "http://localhost:" + port() + path;
  }

  /** Nothing for axe-core to find, and nothing wider than the window. */
  protected void looksRight(String state) {
    browser().picture(state);
    assertThat(browser().accessibilityFaults()).as("axe-core on " + state).isEmpty();
    assertThat(browser().overflow()).as("pixels too wide: " + state).isZero();
  }
}
