package org.understock.service.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.understock.service.ServiceProcess;

/** The service that a page asks goes away while it is used, and comes back: a real process. */
class RestartTest extends InBrowser {
  @TempDir private Path folder;

  @Test
  void saysThatTheServiceIsAwayAndGoesOnByItselfWhenItIsBack() throws Exception {
    try (ServiceProcess service =
        new ServiceProcess(
            folder.resolve("service.log"),
            List.of(
                "--understock.home=" + folder.resolve("home"),
                "--understock.cors.allowed-origins=" + host().origin()))) {
      browser()
          .go(
              host()
                  .with(
                      "<understock-advice units='metric' crop='apple' varieties='gala' api='http://localhost:%d/'></understock-advice>"
                          .formatted(service.port())));
      browser().await("form");
      browser().click("[name=reach][value='2.5']");
      browser().click("[type=submit]");
      browser().await(".card");
      String before = browser().in(".pairing").getText();

      for (boolean killed : new boolean[] {false, true}) {
        browser().click(".asked button");
        browser().await(".form");
        String reach = killed ? "2.5" : "3.5";
        browser().click("[name=reach][value='" + reach + "']");
        if (killed) service.kill();
        else service.stop();
        browser().click("[type=submit]");
        browser().await(".trouble");
        assertThat(browser().in(".trouble").getText())
            .contains("The advice service can't be reached just now.")
            .contains("What you entered is kept.");
        looksRight("restarting");

        service.restart();
        // Nobody touches the page.
        browser()
            .await(
                "the answer to what was asked meanwhile",
                () ->
                    browser().has(".asked button")
                        && browser().in(".asked").getText().contains("picked up to " + reach));
        assertThat(browser().has(".trouble")).isFalse();
      }
      assertThat(browser().in(".pairing").getText()).isEqualTo(before);
      assertThat(browser().errors()).allMatch(e -> e.contains("ERR_CONNECTION_"));
    }
  }
}
