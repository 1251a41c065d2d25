package org.understock.service.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.Keys;

/** A curator's round at the desk: a raw spreadsheet becomes accepted records without leaving it. */
class DeskTest extends InBrowser {
  @ParameterizedTest
  @ValueSource(ints = {1280, 390})
  void takesASpreadsheetFromRawToAccepted(int width) {
    browser().window(width, 844, width < 500);
    browser().go(own("/desk/index.html"));
    awaitText("h2", "Sign in");
    looksRight("desk-door-" + width);
    signIn(tokens().proposer());
    awaitText("h2", "Proposals that wait");

    place("import");
    awaitText("h2", "Bring in a spreadsheet");
    // As a spreadsheet's program writes it where decimals have commas, with a column of one's own.
    write(
        "source_id;crop;stock;trait;value_low;value_high;level;remark;locator\n"
            + "omafra-susceptibility-table;apple;M.27;fire-blight;;;resistant;seen;an invented page %d\n"
                .formatted(width)
            + ";;;;;;;;\n"
            + "omafra-susceptibility-table;apple;Malling 72;fire-blight;;;resistant;;an invented page %d\n"
                .formatted(width + 1)
            + "omafra-susceptibility-table;apple;M.27;chill-hours;1,5;2,5;;;an invented page %d\n"
                .formatted(width + 2));
    press("Propose");
    browser().await("the columns", () -> has(".lines .why"));
    assertThat(browser().page("main").getText())
        .contains("Semicolons between columns became commas.")
        .contains("2 decimal commas became points.")
        .contains("'remark' is not known");
    looksRight("desk-columns-" + width);
    press("Add empty columns note, unit");
    press("Leave out column remark");
    press("Propose");
    browser().await("the bad lines", () -> has(".lines .bad"));
    assertThat(text(".lines")).contains("Malling 72");
    looksRight("desk-refused-" + width);
    write(
        String.valueOf(browser().page("textarea").getDomProperty("value"))
            .lines()
            .filter(line -> !line.contains("Malling 72") && !line.contains("chill-hours"))
            .collect(Collectors.joining("\n")));
    press("Propose");
    browser().await("what was proposed", () -> has(".done"));
    assertThat(text(".done")).contains("1 rows read, 1 proposed");
    browser().page(".done a").click();
    browser().await("the proposal", () -> has("tbody input"));
    assertThat(browser().page("main").getText()).contains("may not accept or reject");

    press("Sign out");
    awaitText("h2", "Sign in");
    signIn(tokens().reviewer());
    browser().await("the proposal", () -> has("tbody input"));
    browser().page("tbody input").sendKeys(Keys.SPACE);
    press("What would it change?");
    browser().await("its impact", () -> has("[aria-label='What would change'] table"));
    assertThat(text("[aria-label='What would change']")).contains("m-27").contains("fire blight");
    looksRight("desk-impact-" + width);
    browser().page("input[name=note]").sendKeys("held against the page");
    press("Accept");
    browser().await("the decision", () -> has("main .done"));
    assertThat(text("main .done")).startsWith("Accepted: 1");

    place("revisions");
    awaitText("h2", "Revisions");
    browser().await("revisions", () -> has("tbody a"));
    press("Does the chain hold?");
    browser().await("the verdict", () -> browser().page("main").getText().contains("It holds"));
    browser().page("tbody a").click();
    browser().await("the revision", () -> has("a[href^='#record/']"));
    browser().page("a[href^='#record/']").click();
    awaitText("h3", "History");
    assertThat(browser().page("main").getText())
        .contains("held against the page")
        .contains("test-proposer")
        .contains("test-reviewer");
    looksRight("desk-record-" + width);
    String counts = text("main");
    place("advice");
    browser().await("form");
    browser().click("[name=crop][value=apple]");
    browser().click("[type=submit]");
    browser().await(".card");
    String revision = counts.replaceAll("(?s).*counts from revision (\\d+) on.*", "$1");
    assertThat(
            (String)
                browser()
                    .js(
                        "return document.querySelector('understock-advice').shadowRoot.textContent"))
        .contains("revision " + revision);
    looksRight("desk-advice-" + width);
    assertThat(browser().errors()).allMatch(e -> e.contains("422")); // the refused file
  }

  @Test
  void saysWhenTheServiceIsAwayAndGoesOnWhenItIsBack() {
    browser().go(own("/desk/index.html"));
    awaitText("h2", "Sign in");
    signIn(tokens().reviewer());
    awaitText("h2", "Proposals that wait");
    place("records");
    awaitText("h2", "Records");
    browser().await("records", () -> has("tbody a"));
    browser().offline(true);
    press("Search");
    browser().await("the fault", () -> has(".problem"));
    assertThat(text(".problem")).contains("cannot be reached");
    browser().offline(false);
    press("Search");
    browser().await("records", () -> has("tbody a"));
  }

  @Test
  void takesNoTokenThatIsNone() {
    browser().go(own("/desk/index.html"));
    awaitText("h2", "Sign in");
    signIn("password");
    assertThat(browser().js("return document.querySelector('textarea').validationMessage"))
        .asString()
        .contains("no token");
  }

  private void signIn(String token) {
    write(token);
    press("Sign in");
  }

  private void write(String text) {
    browser()
        .js(
            "arguments[0].value = arguments[1]; arguments[0].focus()",
            browser().page("textarea"),
            text);
  }

  private void place(String id) {
    browser().page("nav a[href='#" + id + "']").click();
  }

  /** A button by its words, pressed as from the keyboard. */
  private void press(String words) {
    browser()
        .js(
            "const found = [...document.querySelectorAll('button')].find(b => b.textContent === arguments[0]);"
                + "found.focus(); found.click();",
            words);
  }

  private void awaitText(String css, String text) {
    browser().await(css + " saying " + text, () -> has(css) && anyText(css, text));
  }

  private boolean anyText(String css, String text) {
    return Boolean.TRUE.equals(
        browser()
            .js(
                "return [...document.querySelectorAll(arguments[0])].some(e => e.textContent === arguments[1])",
                css,
                text));
  }

  private boolean has(String css) {
    return Boolean.TRUE.equals(
        browser().js("return Boolean(document.querySelector(arguments[0]))", css));
  }

  private String text(String css) {
    return browser().page(css).getText();
  }
}
