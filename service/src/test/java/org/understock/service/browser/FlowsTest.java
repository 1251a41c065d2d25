package org.understock.service.browser;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.Keys;

/** From the question to what is wanted, by keys alone and by touch alone, on a phone and a desk. */
class FlowsTest extends InBrowser {
  private static final String HANDS = "390, 844, false";
  private static final String FINGER = "390, 844, true";
  private static final String DESK_HANDS = "1280, 900, false";
  private static final String DESK_FINGER = "1280, 900, true";

  private boolean finger;

  /** At the office: a fruit is told, asked for, a word looked up, the card taken away, and back. */
  @ParameterizedTest
  @CsvSource({HANDS, FINGER, DESK_HANDS, DESK_FINGER})
  void theOfficeLeadsToACard(int width, int height, boolean touch) {
    at("/demo/office.html", width, height, touch);
    browser().await("form");
    choose("[name=crop]", "[name=crop][value=apple]", Keys.SPACE);
    use("[type=submit]");
    browser().await(".card");
    use(".card .term");
    browser().await(".note");
    String first = browser().in(".pairing").getText();
    String card = browser().in(".card a").getDomProperty("href");
    use(".card a");
    browser().await("the card", () -> browser().address().equals(card));
    assertThat((String) browser().js("return document.body.innerText"))
        .contains(first.substring(0, first.indexOf(" on ")));
    looksRight("flow-card-" + width + (touch ? "-touch" : ""));
    browser().back();
    browser().await(".card");
    assertThat(browser().in(".pairing").getText()).isEqualTo(first);
    assertThat(browser().errors()).isEmpty();
  }

  /** In the shop: what is asked for leads to a choice in the basket. */
  @ParameterizedTest
  @CsvSource({HANDS, FINGER, DESK_HANDS, DESK_FINGER})
  void theShopLeadsToAChoice(int width, int height, boolean touch) {
    at("/demo/nursery.html", width, height, touch);
    browser().await("form");
    // From "don't know" round to the first.
    choose("[name=reach]", "[name=reach][value='2.5']", Keys.ARROW_DOWN);
    use("[type=submit]");
    browser().await(".card");
    assertThat(browser().in(".asked").getText()).contains("picked up to 2.5 m");
    use(".card [part~=choose]");
    browser()
        .await(
            "the choice",
            () -> browser().page("#basket").getText().startsWith("Your choice: Apple ‘Gala’, On "));
    assertThat(browser().errors()).isEmpty();
  }

  /** At the desk: rows are typed, proposed, looked at and accepted by somebody else. */
  @ParameterizedTest
  @CsvSource({HANDS, FINGER, DESK_HANDS, DESK_FINGER})
  void theDeskLeadsToARevision(int width, int height, boolean touch) {
    at("/desk/index.html", width, height, touch);
    signIn(tokens().proposer());
    use("nav a[href='#import']");
    browser().awaitOnPage("textarea[name=text]");
    write(
        "textarea[name=text]",
        "source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note\nomafra-susceptibility-table,apple,M.7,fire-blight,resistant,,,,an invented place %d %s,"
            .formatted(width, touch));
    use("main .deed");
    browser().awaitOnPage(".done a");
    use(".done a");
    browser().awaitOnPage("tbody input");
    use("#who button");
    signIn(tokens().reviewer());
    browser().awaitOnPage("tbody input");
    if (finger) use("tbody input");
    else choose("tbody input", "tbody input", Keys.SPACE);
    use("main .bar button:nth-of-type(1)");
    browser().awaitOnPage("[aria-label='What would change'] table");
    write("input[name=note]", "held against the page");
    use("main .bar .deed");
    browser().awaitOnPage("main .done");
    assertThat(browser().page("main .done").getText()).startsWith("Accepted: 1");
    use("nav a[href='#revisions']");
    browser().awaitOnPage("tbody a[href^='#revision/']");
    use("tbody a[href^='#revision/']");
    browser().awaitOnPage("a[href^='#record/']");
    assertThat(browser().errors()).isEmpty();
  }

  private void signIn(String token) {
    browser().awaitOnPage("textarea[name=token]");
    write("textarea[name=token]", token);
    use("main .deed");
    browser().awaitOnPage("nav a[href='#import']");
    browser().await("the queue", () -> !browser().page("main").getText().contains("access token"));
  }

  private void at(String path, int width, int height, boolean touch) {
    finger = touch;
    browser().window(width, height, touch);
    browser().go(own(path));
  }

  /** A press: of the enter key, having gone there with the tab key, or of a finger. */
  private void use(String css) {
    choose(css, css, Keys.ENTER);
  }

  /** One of a group: by a key on the one that the tab key comes to, or by a finger on itself. */
  private void choose(String group, String one, CharSequence key) {
    if (finger) {
      browser().touch(browser().anywhere(one));
    } else {
      browser().tabTo(group);
      browser().keys(key);
    }
  }

  /** Into a field; a phone's keys on the screen send what others do. */
  private void write(String css, String text) {
    if (finger) {
      browser().touch(browser().anywhere(css));
      browser().await("the focus", () -> browser().focusIsOn(css));
    } else {
      browser().tabTo(css);
    }
    browser().keys(text);
  }
}
