package org.understock.service.browser;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A Chromium without a window, and what a person does with it: keys, touches, looking. */
final class Browser implements AutoCloseable {
  /** For a machine that has much else to do: nothing is awaited longer than until it is there. */
  private static final Duration PATIENCE = Duration.ofMinutes(3);

  private static final int MOST_TABS = 120;
  private static final String DEEP =
      "let at = document.activeElement;"
          + "while (at && at.shadowRoot && at.shadowRoot.activeElement) at = at.shadowRoot.activeElement;";

  private static final String SAID =
      "const root = document.querySelector('understock-advice')?.shadowRoot;"
          + "return [...(root?.querySelectorAll('[role=status], [role=alert], .fault') ?? [])]"
          + ".map(e => e.textContent).filter(Boolean).join(' | ');";

  private final ChromeDriver driver;

  private Browser(ChromeDriver driver) {
    this.driver = driver;
  }

  /** Whether Chromium and its driver are on the machine's path. */
  static boolean isInstalled() {
    return program("chromium").isPresent() && program("chromedriver").isPresent();
  }

  private static Optional<File> program(String name) {
    return Stream.of(
            Objects.requireNonNullElse(System.getenv("PATH"), "").split(File.pathSeparator))
        .map(folder -> new File(folder, name))
        .filter(File::canExecute)
        .findFirst();
  }

  static Browser open() {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(program("chromium").orElseThrow());
    options.addArguments(
        "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage");
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    options.setCapability(ChromeOptions.LOGGING_PREFS, logs);
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(program("chromedriver").orElseThrow())
            .usingAnyFreePort()
            .build();
    ChromeDriver driver = new ChromeDriver(service, options);
    driver.manage().timeouts().scriptTimeout(PATIENCE).pageLoadTimeout(PATIENCE);
    return new Browser(driver);
  }

  /** A phone has touch and reports itself as mobile. */
  void window(int width, int height, boolean phone) {
    cdp(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", phone));
    cdp("Emulation.setTouchEmulationEnabled", Map.of("enabled", phone));
  }

  void dark(boolean dark) {
    cdp(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(
                Map.of("name", "prefers-color-scheme", "value", dark ? "dark" : "light"),
                Map.of("name", "prefers-reduced-motion", "value", "reduce"))));
  }

  void offline(boolean away) {
    network(away, 0, -1);
  }

  /**
   * The usual figures for a middling 3G line: 1.6 Mbit/s down, 750 kbit/s up, 300 ms there and
   * back.
   */
  void thirdGeneration() {
    network(false, 300, 200_000);
  }

  void anyNetwork() {
    network(false, 0, -1);
  }

  private void network(boolean offline, int latencyMs, int bytesPerSecond) {
    cdp("Network.enable", Map.of());
    cdp(
        "Network.emulateNetworkConditions",
        Map.of(
            "offline", offline,
            "latency", latencyMs,
            "downloadThroughput", bytesPerSecond,
            "uploadThroughput", bytesPerSecond < 0 ? -1 : bytesPerSecond / 2));
  }

  void cdp(String command, Map<String, Object> parameters) {
    driver.executeCdpCommand(command, parameters);
  }

  void go(String address) {
    driver.get(address);
  }

  void back() {
    driver.navigate().back();
  }

  String address() {
    return Objects.requireNonNull(driver.getCurrentUrl());
  }

  Object js(String script, Object... values) {
    return Objects.requireNonNullElse(driver.executeScript(script, values), "");
  }

  /** An element of the page's first widget. */
  WebElement in(String css) {
    return driver
        .findElement(By.cssSelector("understock-advice"))
        .getShadowRoot()
        .findElement(By.cssSelector(css));
  }

  List<WebElement> all(String css) {
    return driver
        .findElement(By.cssSelector("understock-advice"))
        .getShadowRoot()
        .findElements(By.cssSelector(css));
  }

  WebElement page(String css) {
    return driver.findElement(By.cssSelector(css));
  }

  /** An element of the widget or, where it has none such, of the page around it. */
  WebElement anywhere(String css) {
    return (WebElement)
        js(
            "return document.querySelector('understock-advice')?.shadowRoot.querySelector(arguments[0])"
                + " ?? document.querySelector(arguments[0])",
            css);
  }

  /** Waits for something on the page itself, outside the widget. */
  void awaitOnPage(String css) {
    await(
        "something like " + css + " on the page",
        () -> !driver.findElements(By.cssSelector(css)).isEmpty());
  }

  boolean has(String css) {
    return Boolean.TRUE.equals(
        driver.executeScript(
            "const found = document.querySelector('understock-advice')?.shadowRoot?.querySelector(arguments[0]);"
                + "return Boolean(found && found.checkVisibility());",
            css));
  }

  void await(String css) {
    await("something like " + css, () -> has(css));
  }

  void awaitGone(String css) {
    await("nothing like " + css, () -> !has(css));
  }

  void await(String what, BooleanSupplier condition) {
    new WebDriverWait(driver, PATIENCE)
        .ignoring(StaleElementReferenceException.class) // the page is just being made anew
        .withMessage(() -> what + "; the widget says: " + js(SAID) + "; the browser: " + errors())
        .until(any -> condition.getAsBoolean());
  }

  /** A click on an element of the widget, wherever it stands on the page. */
  void click(String css) {
    js("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", in(css));
    js("arguments[0].click()", in(css));
  }

  /** Text into a field of the widget, in the place of what is in it. */
  void type(String css, String text) {
    WebElement field = in(css);
    js("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", field);
    field.clear();
    field.sendKeys(text);
  }

  /** Types into whatever has the focus. */
  void keys(CharSequence... keys) {
    new Actions(driver).sendKeys(keys).perform();
  }

  /** Goes on with the tab key until the focus is on such an element. */
  void tabTo(String css) {
    for (int k = 0; k < MOST_TABS; k++) {
      keys(Keys.TAB);
      if (focusIsOn(css)) return;
    }
    throw new AssertionError("The tab key never comes to " + css);
  }

  boolean focusIsOn(String css) {
    return Boolean.TRUE.equals(
        driver.executeScript(DEEP + "return Boolean(at && at.matches(arguments[0]));", css));
  }

  /** A finger on the middle of an element, as the browser takes it from a screen. */
  void touch(WebElement element) {
    List<?> at =
        (List<?>)
            js(
                "arguments[0].scrollIntoView({block: 'center', behavior: 'instant'});"
                    + "const box = arguments[0].getBoundingClientRect();"
                    + "return [box.left + box.width / 2, box.top + box.height / 2];",
                element);
    Map<String, Object> point = Map.of("x", at.get(0), "y", at.get(1));
    cdp("Input.dispatchTouchEvent", Map.of("type", "touchStart", "touchPoints", List.of(point)));
    cdp("Input.dispatchTouchEvent", Map.of("type", "touchEnd", "touchPoints", List.of()));
  }

  /** What axe-core finds, by the rules of WCAG 2.2 A and AA and its own of good practice. */
  List<?> accessibilityFaults() {
    driver.executeScript(Axe.SOURCE);
    return (List<?>)
        Objects.requireNonNull(
            driver.executeAsyncScript(
                "const done = arguments[arguments.length - 1];"
                    + "axe.run({runOnly: ['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa','best-practice'],"
                    + " rules: {'target-size': {enabled: true}}})"
                    + ".then(found => done(found.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html.slice(0, 120) + ' ' + n.failureSummary).join(' | '))));"));
  }

  /** How far the page is wider than the window, in CSS pixels. */
  long overflow() {
    return (Long)
        js("return document.documentElement.scrollWidth - document.documentElement.clientWidth");
  }

  /** Errors that the browser wrote since the last time, refused inline code among them. */
  List<String> errors() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.SEVERE.intValue())
        .map(LogEntry::getMessage)
        .toList();
  }

  /** Keeps a picture where {@code -Dbrowser.pictures=FOLDER} asks for it. */
  void picture(String name) {
    String folder = System.getProperty("browser.pictures", "");
    if (folder.isEmpty()) return;
    try {
      Files.createDirectories(Path.of(folder));
      js("window.scrollTo(0, 0)");
      // No picture is higher than the browser can take one.
      Object clip =
          js(
              "const page = document.documentElement; return {x: 0, y: 0, scale: 1,"
                  + " width: page.scrollWidth, height: Math.min(page.scrollHeight, 12000)}");
      Map<String, Object> taken =
          driver.executeCdpCommand(
              "Page.captureScreenshot",
              Map.of("format", "png", "captureBeyondViewport", true, "clip", clip));
      Files.write(
          Path.of(folder, name + ".png"),
          OutputType.BYTES.convertFromBase64Png((String) taken.get("data")));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    driver.quit();
  }

  private static final class Axe {
    static final String SOURCE = read();

    private static String read() {
      String found = "axe.min.js";
      try (InputStream in = Browser.class.getClassLoader().getResourceAsStream(found)) {
        return new String(Objects.requireNonNull(in, found).readAllBytes(), StandardCharsets.UTF_8);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
