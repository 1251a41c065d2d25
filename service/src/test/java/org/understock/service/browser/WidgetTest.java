package org.understock.service.browser;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsStringIgnoringCase;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.Keys;

/** What a visitor does with the widget on a strict page of another origin. */
class WidgetTest extends InBrowser {
  private static final String METRIC = "<understock-advice units='metric'></understock-advice>";
  private static final String GALA =
      "<understock-advice units='metric' crop='apple' varieties='gala'%s></understock-advice>";

  @Test
  void isUsedByKeyboardAlone() {
    browser().go(host().with(METRIC));
    browser().await("form");
    browser().tabTo("[name=crop]");
    browser().keys(Keys.SPACE);
    browser().tabTo("#variety-field");
    browser().keys("gal");
    browser().await("[role=option]");
    browser().keys(Keys.ARROW_DOWN, Keys.ENTER);
    assertThat(browser().in("#variety-field").getDomProperty("value")).isEqualTo("Gala");
    browser().tabTo("[name=wide]");
    browser().keys("4", Keys.TAB, "6");
    browser().tabTo("[name=reach]");
    // From "don't know" round to the first.
    browser().keys(Keys.ARROW_DOWN);
    browser().tabTo("[type=submit]");
    browser().keys(Keys.ENTER);
    browser().await(".card");
    assertThat(browser().focusIsOn(".result h2")).isTrue();
    assertThat(browser().in(".asked").getText())
        .contains("Apple", "Gala", "4 × 6 m", "picked up to 2.5 m");

    browser().tabTo(".term");
    browser().keys(Keys.ENTER);
    browser().await(".note");
    assertThat(browser().in(".note").getText()).startsWith("Variety:");
    browser().keys(Keys.ESCAPE);
    browser().awaitGone(".note");
    assertThat(browser().focusIsOn(".term")).isTrue();

    browser().tabTo("#stock-field");
    browser().keys("MM.111", Keys.ESCAPE, Keys.ENTER);
    browser().await(".compared h4");
    assertThat(browser().in(".compared").getText()).contains("MM.111");
    assertThat(browser().errors()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({"390, 844", "320, 640"})
  void isUsedByTouch(int width, int height) {
    browser().window(width, height, true);
    browser().go(host().with(METRIC));
    browser().await("form");
    browser().touch(browser().in("[name=crop][value=apple]"));
    browser().touch(browser().in("#variety-field"));
    browser().await("the focus", () -> browser().focusIsOn("#variety-field"));
    browser().keys("gal");
    browser().await("[role=option]");
    browser().touch(browser().in("[role=option]"));
    assertThat(browser().in("#variety-field").getDomProperty("value")).isEqualTo("Gala");
    browser().touch(browser().in("[name=reach][value='2.5']"));
    browser().touch(browser().in("[name=drainage][value=well-drained]"));
    browser().touch(browser().in("[type=submit]"));
    browser().await(".card");
    browser().touch(browser().in(".card .term"));
    browser().await(".note");
    browser().touch(browser().in(".card .fold summary"));
    browser().await(".card .fold[open]");
    browser().touch(browser().in(".asked button"));
    browser().await(".form");
    assertThat(browser().in("[name=reach][value='2.5']").isSelected()).isTrue();
    assertThat(browser().errors()).isEmpty();
  }

  /** Each state at each size, in both colour schemes and languages. */
  @ParameterizedTest
  @CsvSource({
    "1280, 900, false, en, metric, false",
    "390, 844, true, en, us-customary, false",
    "320, 640, true, es, metric, false",
    "1280, 900, false, es, us-customary, true"
  })
  void hasNothingForAxeToFind(
      int width, int height, boolean phone, String lang, String units, boolean dark) {
    String name = width + "-" + lang + "-" + units + (dark ? "-dark-" : "-");
    browser().window(width, height, phone);
    browser().dark(dark);
    browser()
        .go(
            host()
                .with(
                    "<understock-advice lang='%s' units='%s' api='/front/'></understock-advice>"
                        .formatted(lang, units)));
    browser().await("form");
    looksRight(name + "empty");

    browser().click("[type=submit]");
    browser().await("[data-fault=crop]");
    looksRight(name + "fault");

    browser().click("[name=crop][value=apple]");
    browser().type("#variety-field", "galla");
    browser().keys(Keys.ESCAPE);
    browser().click("[type=submit]");
    browser().await("[data-fault=variety] button");
    looksRight(name + "unknown");

    host().refuse(1, 503);
    browser().click("[data-fault=variety] button");
    browser().await(".trouble");
    looksRight(name + "waiting");

    browser().await(".card");
    browser().click(".card .term");
    browser().click(".card .fold summary");
    looksRight(name + "answer");

    browser().type("#stock-field", "MM.111");
    browser().keys(Keys.ESCAPE);
    browser().click(".whynot [type=submit]");
    browser().await(".compared .reasons");
    looksRight(name + "whynot");
  }

  @Test
  void keepsWhatWasTypedWhileTheServiceIsAway() {
    browser().go(host().with(METRIC));
    browser().await("form");
    browser().click("[name=crop][value=apple]");
    browser().type("[name=wide]", "4");
    browser().type("[name=long]", "6");
    browser().offline(true);
    browser().click("[type=submit]");
    browser().await(".trouble");
    assertThat(browser().in(".trouble").getText()).contains("What you entered is kept.");
    assertThat(browser().in("[name=wide]").getDomProperty("value")).isEqualTo("4");
    looksRight("offline");
    browser().offline(false);
    browser().await(".card");
    assertThat(browser().has(".trouble")).isFalse();
  }

  @ParameterizedTest
  @CsvSource({"503", "429", "502"})
  void asksAgainByItself(int status) {
    browser().go(host().with(GALA.formatted(" api='/front/'")));
    browser().await("form");
    host().refuse(2, status);
    browser().click("[type=submit]");
    browser().await(".trouble");
    assertThat(browser().in(".trouble").getDomAttribute("role")).isEqualTo("alert");
    browser().await(".card");
  }

  @Test
  void asksAtOnceWhenTold() {
    browser().go(host().with(GALA.formatted(" api='/front/'")));
    browser().await("form");
    host().refuse(1, 503);
    browser().click("[type=submit]");
    browser().await(".trouble button");
    browser().click(".trouble button");
    browser().await(".card");
  }

  @Test
  void worksOnASlowLine() {
    browser().thirdGeneration();
    browser().go(host().with(GALA.formatted("")));
    browser().await("form");
    browser().click("[type=submit]");
    browser().await(".card");
    assertThat(browser().errors()).isEmpty();
  }

  /** The figures that are drawn and told are those that the service gives. */
  @Test
  void showsWhatTheServiceSays() {
    browser().go(host().with(GALA.formatted("")));
    browser().await("form");
    browser().click("[type=submit]");
    browser().await(".card");
    Map<?, ?> best =
        (Map<?, ?>)
            browser().js("return document.querySelector('understock-advice').advice.pairings[0]");
    Map<?, ?> expectations = (Map<?, ?>) best.get("expectations");
    Map<?, ?> height = (Map<?, ?>) expectations.get("heightM");
    Number score = (Number) best.get("score");
    String card = browser().in(".card").getText();
    assertThat(card)
        .contains(String.valueOf(Math.round(score.doubleValue())))
        .contains(shown(height.get("low")) + " m to " + shown(height.get("high")) + " m");
    assertThat(browser().in(".card [role=img]").getDomAttribute("aria-label"))
        .contains("about " + shown(height.get("likely")) + " m high");
    Map<?, ?> first = (Map<?, ?>) ((List<?>) best.get("reasons")).get(0);
    assertThat(card.replaceAll("\\s+", " ")).contains((String) first.get("text"));
    assertThat(browser().in(".card a").getDomProperty("href"))
        .isEqualTo(
            own(
                "/v1/pairings/"
                    + ((Map<?, ?>) best.get("stock")).get("id")
                    + "/"
                    + ((Map<?, ?>) best.get("variety")).get("id")
                    + "?lang=en&units=metric"));
  }

  private static String shown(Object metres) {
    String text = String.valueOf(((Number) metres).doubleValue());
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }

  @Test
  void keepsWhatWasTypedWhenLanguageAndUnitsChange() {
    browser().go(host().with(METRIC));
    browser().await("form");
    browser().click("[name=crop][value=apple]");
    browser().type("[name=wide]", "3");
    browser().type("[name=long]", "6,1");
    browser().click(".switch:nth-of-type(2)");
    browser().await("feet", () -> "20".equals(browser().in("[name=long]").getDomProperty("value")));
    assertThat(browser().in("[name=wide]").getDomProperty("value")).isEqualTo("9.8");
    browser().click(".switch");
    browser()
        .await("Spanish", () -> browser().in("h2").getText().equals("¿Qué árbol conviene aquí?"));
    assertThat(browser().in("[name=crop][value=apple]").isSelected()).isTrue();
    assertThat(browser().in("[name=wide]").getDomProperty("value")).isEqualTo("9.8");
  }

  @Test
  void answersInSpanishAndExplainsItsWords() {
    browser().go(host().with(GALA.formatted(" lang='es'")));
    browser().await("form");
    browser().click("[type=submit]");
    browser().await(".card");
    assertThat(browser().in(".reasons").getText()).contains("fuente").doesNotContain("source");
    assertThat(browser().in(".grounds").getText()).contains("extensión");
    browser().click(".card .term");
    browser().await(".note");
    assertThat(browser().in(".note").getText()).startsWith("Variedad:");
  }

  @Test
  void tellsTheStorefrontWhatWasChosen() {
    browser()
        .go(
            host()
                .with(
                    "<understock-advice crop='apple' skus='m-27/gala=QF-101 mm-111/gala=QF-118'></understock-advice>"));
    browser().await("form");
    browser()
        .js(
            "window.told = []; for (const name of ['asked', 'answered', 'chosen'])"
                + " document.addEventListener('understock-' + name, e => told.push([name, e.detail]))");
    browser().click("[type=submit]");
    browser().await(".card");
    browser().click(".card [part~=choose]");
    List<?> told = (List<?>) browser().js("return told");
    assertThat(told.stream().map(t -> String.valueOf(((List<?>) t).get(0))))
        .containsExactly("asked", "answered", "chosen");
    Map<?, ?> chosen = (Map<?, ?>) ((List<?>) told.get(2)).get(1);
    assertThat(chosen.get("sku")).isIn("QF-101", "QF-118");
  }

  @Test
  void saysWhenOneIsRuledOut() {
    browser().go(host().with(GALA.formatted("")));
    browser().await("form");
    browser().type("[name=wide]", "3");
    browser().type("[name=long]", "3");
    browser().click("[name=reach][value='2.5']");
    browser().click("[type=submit]");
    browser().await(".card");
    browser().type("#stock-field", "Antonovka 313");
    browser().keys(Keys.ESCAPE);
    browser().click(".whynot [type=submit]");
    browser().await(".compared h4");
    assertThat(browser().in(".compared").getText())
        .contains("Gala on Antonovka 313 is ruled out here")
        .contains("2.5 m that can be reached");
  }

  /** Else a browser or a proxy would give one page the answer that it kept for another. */
  @Test
  void tellsCachesThatAnswersDependOnThePage() {
    given()
        .header("Origin", host().origin())
        .get("/v1/varieties?q=gal")
        .then()
        .header("Access-Control-Allow-Origin", host().origin())
        .header("Vary", containsStringIgnoringCase("origin"))
        .header("Vary", containsStringIgnoringCase("accept-encoding"));
  }
}
