package org.understock.service.card;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** The card as a client, a browser and a printer meet it. */
class CardTest extends RunningService {
  private static final String FUJI = "/v1/pairings/g-969/fuji";

  /** Incompatible by its source (Israel, 1970s). */
  private static final String FAILS = "/v1/pairings/quince-a/beurre-superfin";

  private static Response get(String path) {
    return given().urlEncodingEnabled(false).get(path);
  }

  private static Document parsed(Response answer) throws Exception {
    assertThat(answer.statusCode()).isEqualTo(200);
    String text = answer.asString().replaceFirst("^<!DOCTYPE html>", "");
    return DocumentBuilderFactory.newDefaultInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(text)));
  }

  private static List<Element> all(Document page, String element) {
    List<Element> found = new ArrayList<>();
    NodeList nodes = page.getElementsByTagName(element);
    for (int k = 0; k < nodes.getLength(); k++) found.add((Element) nodes.item(k));
    return found;
  }

  /** What browsers, picture elements and programs send (their documentation). */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "*/* | application/json",
        "application/json | application/json",
        "text/html,application/xhtml+xml,application/xml;q=0.9,image/avif,image/webp,*/*;q=0.8 | text/html",
        "image/avif,image/webp,image/png,image/svg+xml,image/*;q=0.8,*/*;q=0.5 | image/svg+xml",
        "image/svg+xml | image/svg+xml"
      })
  void everyone_gets_the_form_they_would_soonest_have(String accept, String type) {
    Response answer = given().header("Accept", accept).get(FUJI);
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.contentType()).startsWith(type);
    assertThat(answer.header("Vary")).containsIgnoringCase("accept");
  }

  @Test
  void a_form_that_there_is_not_is_not_acceptable() {
    assertThat(given().header("Accept", "text/plain").get(FUJI).statusCode()).isEqualTo(406);
  }

  /** A cache that holds the page must not be told that the picture is unchanged. */
  @Test
  void each_form_has_a_tag_of_its_own() {
    Set<String> tags = new HashSet<>();
    for (String accept : List.of("application/json", "text/html", "image/svg+xml")) {
      Response first = given().header("Accept", accept).get(FUJI);
      String tag = first.header("ETag");
      assertThat(first.header("Cache-Control")).contains("max-age=300");
      assertThat(
              given().header("Accept", accept).header("If-None-Match", tag).get(FUJI).statusCode())
          .isEqualTo(304);
      tags.add(tag);
    }
    assertThat(tags).hasSize(3);
    String held = String.join(", ", tags.stream().filter(tag -> tag.contains("html")).toList());
    assertThat(
            given()
                .header("Accept", "image/svg+xml")
                .header("If-None-Match", held)
                .get(FUJI)
                .statusCode())
        .isEqualTo(200);
  }

  @Test
  void usual_spellings_mean_the_pairing_and_the_contract_holds() {
    Contract contract = new Contract(given().get("/v3/api-docs").asString());
    Response card =
        given().filter(contract).urlEncodingEnabled(false).get("/v1/pairings/MM%20106/Gala");
    assertThat(card.<String>path("stock.id")).isEqualTo("mm-106");
    assertThat(card.<String>path("variety.id")).isEqualTo("gala");
    assertThat(card.<String>path("title")).isEqualTo("Gala on MM.106");
    for (String path :
        List.of(
            "/v1/pairings/m-99/gala",
            "/v1/pairings/m-9/no-such-apple",
            "/v1/pairings/m-9/bing",
            "/v1/pairings/not-stated/gala",
            FUJI + "?revision=99",
            FUJI + "?units=furlongs",
            FUJI + "?copies=0",
            FUJI + "?copies=81",
            FUJI + "?paper=a5",
            FUJI + "?sheet=tag",
            FUJI + "?format=pdf",
            FAILS)) given().filter(contract).urlEncodingEnabled(false).get(path);
  }

  @Test
  void what_is_no_pairing_is_not_found_and_says_what_is_near() {
    Response stock = get("/v1/pairings/m-99/gala");
    assertThat(stock.statusCode()).isEqualTo(404);
    assertThat(stock.<List<String>>path("errors[0].nearest")).contains("m-9");
    Response variety = get("/v1/pairings/m-9/galla");
    assertThat(variety.statusCode()).isEqualTo(404);
    assertThat(variety.<String>path("errors[0].parameter")).isEqualTo("variety");
    assertThat(variety.<List<String>>path("errors[0].nearest")).contains("gala");
    Response crop = get("/v1/pairings/m-9/bing");
    assertThat(crop.statusCode()).isEqualTo(404);
    assertThat(crop.<String>path("detail")).contains("sweet cherry").contains("apple");
    Response klass = get("/v1/pairings/not-stated/gala");
    assertThat(klass.statusCode()).isEqualTo(404);
    assertThat(klass.<String>path("detail")).contains("class of stocks");
    assertThat(get(FUJI + "?units=furlongs").statusCode()).isEqualTo(400);
  }

  /** A union that fails is told before all else, in every form. */
  @Test
  void a_pairing_that_fails_does_not_look_like_a_recommendation() throws Exception {
    assertThat(get(FAILS).<String>path("union.state")).isEqualTo("fails");
    Document page = parsed(get(FAILS + "?format=html"));
    assertThat(all(page, "h2").get(0).getTextContent())
        .isEqualTo("Not a pairing to plant: the union is reported to fail");
    assertThat(all(page, "h2").stream().map(Element::getTextContent))
        .contains("Full-grown size, if the union held")
        .doesNotContain("Care");
    String svg = get(FAILS + "?format=svg").asString();
    assertThat(svg.indexOf("Not a pairing to plant")).isLessThan(svg.indexOf("Full-grown size"));
    Document tags = parsed(get(FAILS + "?sheet=tags&copies=1"));
    for (Element tag : all(tags, "article"))
      assertThat(tag.getTextContent()).containsAnyOf("Not a pairing to plant", "Do not graft");
  }

  /** Size not on record: said where the drawing is, and no filled tree pretends otherwise. */
  @Test
  void a_size_that_is_not_on_record_is_not_drawn_as_if_it_were() {
    String known = get("/v1/pairings/m-9/gala?format=svg").asString();
    assertThat(known).contains("Full-grown size").contains("likely").contains("fill-opacity");
    Response unknown = get("/v1/pairings/m-25/bramley-s-seedling");
    assertThat(unknown.<Boolean>path("expectations.sizeKnown")).isFalse();
    assertThat(unknown.<String>path("expectations.support")).isNull();
    String drawn = get("/v1/pairings/m-25/bramley-s-seedling?format=svg").asString();
    assertThat(drawn)
        .contains("Size of this stock not on record")
        .contains("middle")
        .doesNotContain("fill-opacity")
        .doesNotContain("likely");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/v1/pairings/g-969/fuji?format=html",
        "/v1/pairings/quince-a/beurre-superfin?format=html",
        "/v1/pairings/lovell/redhaven?format=html&units=us-customary",
        "/v1/pairings/m-9/cox-s-orange-pippin?sheet=tags&copies=3",
        "/v1/pairings/gi-5/bing?sheet=tags&paper=letter"
      })
  void a_page_can_be_read_by_all_and_needs_nothing_from_elsewhere(String path) throws Exception {
    Response answer = get(path);
    Document page = parsed(answer);
    assertThat(page.getDocumentElement().getAttribute("lang")).isEqualTo("en");
    assertThat(all(page, "title").get(0).getTextContent()).isNotBlank();
    assertThat(all(page, "h1")).hasSize(1);
    assertThat(all(page, "main")).hasSize(1);
    for (String element : List.of("script", "link", "img", "iframe", "object", "foreignObject"))
      assertThat(all(page, element)).as(element).isEmpty();
    assertThat(answer.asString().replace("http://www.w3.org/2000/svg", ""))
        .doesNotContain("url(")
        .doesNotContain("@import")
        .doesNotContain("@font-face")
        .doesNotContain(" style=\"")
        .doesNotContain("http://");
    Set<String> ids = new HashSet<>();
    for (Element element : all(page, "*")) {
      if (element.hasAttribute("id"))
        assertThat(ids.add(element.getAttribute("id"))).as(element.getAttribute("id")).isTrue();
    }
    for (Element svg : all(page, "svg")) {
      if (svg.getAttribute("aria-hidden").equals("true")) continue;
      assertThat(svg.getAttribute("role")).isEqualTo("img");
      if (svg.hasAttribute("aria-label")) continue;
      assertThat(svg.getAttribute("aria-labelledby").split(" ")).hasSize(2).isSubsetOf(ids);
    }
    for (Element header : all(page, "th"))
      assertThat(header.getAttribute("scope")).isIn("row", "col");
    for (String list : List.of("ul", "ol"))
      for (Element element : all(page, list))
        assertThat(element.getElementsByTagName("li").getLength()).isPositive();
  }

  /** The browser applies the style sheet only if the policy names its very digest. */
  @ParameterizedTest
  @ValueSource(strings = {FUJI + "?format=html&paper=letter", FUJI + "?sheet=tags"})
  void the_policy_lets_in_the_pages_own_style_and_nothing_else(String path) throws Exception {
    Response answer = get(path);
    String style = all(parsed(answer), "style").get(0).getTextContent();
    String digest =
        Base64.getEncoder()
            .encodeToString(
                MessageDigest.getInstance("SHA-256")
                    .digest(style.getBytes(StandardCharsets.UTF_8)));
    assertThat(answer.header("Content-Security-Policy"))
        .contains("default-src 'none'")
        .contains("style-src 'sha256-" + digest + "'")
        .doesNotContain("unsafe");
  }

  /** By the header, or by the query, which goes first; each kept apart by caches. */
  @Test
  void a_card_speaks_the_readers_language() throws Exception {
    Response spanish = given().header("Accept-Language", "es-MX, en;q=0.5").get(FUJI);
    assertThat(spanish.header("Content-Language")).isEqualTo("es-419");
    assertThat(String.join(", ", spanish.headers().getValues("Vary")))
        .containsIgnoringCase("Accept-Language");
    assertThat(spanish.<String>path("title")).isEqualTo("Fuji sobre G.969");
    assertThat(spanish.header("ETag")).isNotEqualTo(get(FUJI).header("ETag"));
    Response told = given().header("Accept-Language", "en").get(FUJI + "?lang=es&format=html");
    assertThat(told.header("Content-Language")).isEqualTo("es");
    assertThat(parsed(told).getDocumentElement().getAttribute("lang")).isEqualTo("es");
    assertThat(given().header("Accept-Language", "es").get(FUJI + "?lang=en").<String>path("title"))
        .isEqualTo("Fuji on G.969");
    Response unspoken = get(FUJI + "?lang=fr");
    assertThat(unspoken.statusCode()).isEqualTo(400);
    assertThat(unspoken.<String>path("errors[0].parameter")).isEqualTo("lang");
    assertThat(get("/v1/stocks?lang=es").statusCode()).isEqualTo(400);
  }

  /** No English word stands in a Spanish page but in names, titles of sources and the origin. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        FUJI,
        FAILS,
        "/v1/pairings/m-25/bramley-s-seedling",
        "/v1/pairings/gi-5/bing",
        "/v1/pairings/lovell/redhaven"
      })
  void no_english_is_left_in_a_spanish_card(String path) throws Exception {
    for (String form :
        List.of("?lang=es&format=html", "?lang=es&format=svg", "?lang=es&sheet=tags"))
      for (Element element : all(parsed(get(path + form)), "*")) {
        if (element.getElementsByTagName("*").getLength() > 0) continue;
        if (element.getParentNode() instanceof Element parent
            && parent.getTagName().equals("ol")
            && form.endsWith("html")) continue; // titles of sources
        if (element.getTagName().equals("style")) continue;
        assertThat(element.getTextContent().replaceAll("/v1/\\S+", ""))
            .as(path + form)
            .doesNotContainPattern(
                "(?i)\\b(the|of|and|is|are|not|with|for|from|its|on|stock|tree|record|year|crop)\\b");
      }
  }

  @Test
  void units_change_texts_and_drawing_and_no_field() {
    Response metric = get(FUJI);
    Response feet = get(FUJI + "?units=us-customary");
    for (String field : List.of("expectations", "winterCold.lowestC", "fruit", "pollen", "bears"))
      assertThat(feet.<Object>path(field)).as(field).isEqualTo(metric.path(field));
    assertThat(get(FUJI + "?format=html&units=us-customary").asString())
        .contains(" ft (")
        .contains("size:letter")
        .contains(" ft to scale")
        .doesNotContain(" m high");
    assertThat(get(FUJI + "?format=html").asString()).contains("size:A4").doesNotContain(" ft");
  }

  /**
   * Turned over the long edge, left becomes right: the back of a tag lies in the mirrored column.
   */
  @Test
  void backs_meet_fronts() throws Exception {
    Document page = parsed(get(FUJI + "?sheet=tags&copies=11"));
    List<Element> sheets = all(page, "section");
    assertThat(sheets).hasSize(4);
    for (int sheet = 0; sheet < 4; sheet += 2) {
      List<String> fronts = places(sheets.get(sheet));
      List<String> backs = places(sheets.get(sheet + 1));
      assertThat(fronts).hasSize(sheet == 0 ? 8 : 3).doesNotHaveDuplicates();
      assertThat(
              backs.stream()
                  .map(
                      place ->
                          place.endsWith("0")
                              ? place.replace("c0", "c1")
                              : place.replace("c1", "c0")))
          .containsExactlyElementsOf(fronts);
    }
    String style = all(page, "style").get(0).getTextContent();
    // two columns of 92 mm in the middle of 210 mm
    assertThat(style).contains(".r0c0{left:13mm;").contains(".r0c1{left:105mm;");
  }

  private static List<String> places(Element sheet) {
    List<String> places = new ArrayList<>();
    NodeList tags = sheet.getElementsByTagName("article");
    for (int k = 0; k < tags.getLength(); k++)
      places.add(((Element) tags.item(k)).getAttribute("class").split(" ")[2]);
    return places;
  }
}
