package org.understock.service.browser;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The pages that a newcomer sees first, under the policy that they are sent with. */
class PagesTest extends InBrowser {
  @ParameterizedTest
  @CsvSource({
    "/, front, 1280, false",
    "/, front, 320, true",
    "/demo/office.html, office, 1280, false",
    "/demo/office.html, office, 390, true",
    "/demo/nursery.html, nursery, 1280, false",
    "/demo/nursery.html, nursery, 390, true"
  })
  void isWhole(String path, String name, int width, boolean phone) {
    for (boolean dark : new boolean[] {false, true}) {
      browser().window(width, 844, phone);
      browser().dark(dark);
      browser().go(own(path));
      browser().await("form");
      if (name.equals("nursery"))
        browser()
            .await(
                "heights", () -> browser().page("[data-stock=b-9]").getText().contains("m tall"));
      if (name.equals("office"))
        browser().await("partners", () -> !browser().page("#partners").getText().isEmpty());
      looksRight("page-" + name + "-" + width + (dark ? "-dark" : ""));
    }
    assertThat(browser().errors()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({"1280, false", "390, true"})
  void explainsItself(int width, boolean phone) {
    browser().window(width, 844, phone);
    for (String page : new String[] {"index", "score", "glossary", "reference/index"}) {
      browser().go(own("/docs/" + page + ".html"));
      looksRight("docs-" + page.replace('/', '-') + "-" + width);
    }
    // The body that an example sends is there to be unfolded.
    browser().js("document.querySelector('details').open = true");
    assertThat(browser().page("details pre").getText()).startsWith("{");
    assertThat(browser().overflow()).isZero();
  }

  /** Somebody who knows nothing of trees tells the fruit, asks, and comes to a card, and back. */
  @Test
  void leadsToACardAndBack() {
    browser().go(own("/"));
    browser().await("form");
    browser().click("[name=crop][value=apple]");
    browser().click("[type=submit]");
    browser().await(".card");
    String first = browser().in(".pairing").getText();
    String card = browser().in(".card a").getDomProperty("href");
    browser().click(".card a");
    browser().await("the card", () -> browser().address().equals(card));
    assertThat((String) browser().js("return document.body.innerText"))
        .contains(first.substring(0, first.indexOf(" on ")));
    browser().picture("card");
    browser().back();
    browser().await(".card");
    assertThat(browser().in(".pairing").getText()).isEqualTo(first);
  }

  @Test
  void takesTheAdviceIntoTheShop() {
    browser().go(own("/demo/nursery.html"));
    browser().await("form");
    browser().click("[type=submit]");
    browser().await(".card");
    browser().click(".card [part~=choose]");
    browser()
        .await(
            "the choice",
            () -> browser().page("#basket").getText().startsWith("Your choice: Apple ‘Gala’, On "));
  }
}
