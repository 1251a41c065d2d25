package org.understock.service.catalogue;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;

/**
 * Walks over lists, conditional reads and reads as of a revision, each answer held against the
 * contract.
 */
class ReadsTest extends RunningService {
  private @Nullable Contract contract;

  @BeforeEach
  void readTheContract() {
    contract = new Contract(given().get("/v3/api-docs").asString());
  }

  private Response get(String path) {
    return given().filter(contract).urlEncodingEnabled(false).get(path);
  }

  /** One field of all items, from the first page to the last. */
  private List<String> walked(String path, String field) {
    Response page = get(path);
    List<String> all = new ArrayList<>(page.<List<String>>path(field));
    for (String next = page.path("next"); next != null; next = page.path("next")) {
      page = get(path + "&cursor=" + next);
      all.addAll(page.path(field));
    }
    return all;
  }

  @Test
  void a_walk_gives_every_stock_once_and_in_order() {
    List<String> ids = new ArrayList<>();
    Response page = get("/v1/stocks?limit=100");
    int total = page.path("total");
    while (true) {
      List<String> items = page.path("items.id");
      ids.addAll(items);
      String next = page.path("next");
      if (next == null) break;
      assertThat(items).hasSize(100);
      assertThat(page.headers().getValues("Link"))
          .anySatisfy(link -> assertThat(link).contains("cursor=" + next).endsWith("rel=\"next\""));
      page = get("/v1/stocks?limit=100&cursor=" + next);
    }
    assertThat(total).isGreaterThan(200);
    assertThat(ids).hasSize(total).doesNotHaveDuplicates().isSorted();
  }

  @Test
  void a_search_walked_in_small_pages_keeps_its_order() {
    List<String> whole = get("/v1/stocks?crop=apple&q=m9&limit=200").path("items.id");
    assertThat(whole).hasSizeGreaterThan(3);
    assertThat(whole.get(0)).isEqualTo("m-9");
    assertThat(walked("/v1/stocks?crop=apple&q=m9&limit=2", "items.id")).isEqualTo(whole);
  }

  @Test
  void a_list_that_is_made_while_it_is_walked_ends_too() {
    List<String> traits = walked("/v1/estimates?crop=apple&subject=M.9&limit=3", "items.trait");
    List<String> whole = get("/v1/estimates?crop=apple&subject=M.9&limit=200").path("items.trait");
    assertThat(traits).hasSizeGreaterThan(3).isEqualTo(whole);
  }

  @Test
  void cursors_that_are_damaged_foreign_or_made_up_are_refused_by_name() {
    String next = get("/v1/stocks?limit=1").path("next");
    String damaged = (next.startsWith("A") ? "B" : "A") + next.substring(1);
    for (String path :
        List.of(
            "/v1/stocks?limit=1&cursor=" + damaged,
            "/v1/stocks?limit=1&crop=apple&cursor=" + next,
            "/v1/varieties?cursor=" + next,
            "/v1/stocks?cursor=x",
            "/v1/stocks?cursor=%E2%82%AC")) {
      Response refused = get(path);
      assertThat(refused.statusCode()).as(path).isEqualTo(400);
      assertThat(refused.<List<String>>path("errors.parameter")).as(path).containsExactly("cursor");
    }
  }

  @Test
  void an_answer_at_hand_is_not_sent_again() {
    Response first = get("/v1/stocks/m-9");
    String tag = first.header("ETag");
    assertThat(tag).startsWith("W/\"r1-");
    assertThat(first.header("Cache-Control")).contains("max-age=300");
    for (String held : List.of(tag, tag.substring(2), "\"other\", " + tag)) {
      Response again = given().filter(contract).header("If-None-Match", held).get("/v1/stocks/m-9");
      assertThat(again.statusCode()).as(held).isEqualTo(304);
      assertThat(again.asString()).isEmpty();
      assertThat(again.header("ETag")).isEqualTo(tag);
      assertThat(again.header("Vary")).contains("Accept-Encoding");
    }
    assertThat(
            given()
                .filter(contract)
                .header("If-None-Match", tag)
                .get("/v1/stocks/m-26")
                .statusCode())
        .isEqualTo(200);
  }

  @Test
  void a_spelling_reads_the_same_page_as_the_id() {
    assertThat(get("/v1/stocks/MM%20106").<String>path("id")).isEqualTo("mm-106");
    Response missing = get("/v1/stocks/mm-1066");
    assertThat(missing.statusCode()).isEqualTo(404);
    assertThat(missing.<List<List<String>>>path("errors.nearest").get(0)).contains("mm-106");
  }

  @Test
  void a_revision_that_is_not_there_names_the_latest() {
    assertThat(get("/v1/traits/fire-blight?revision=1").statusCode()).isEqualTo(200);
    Response missing = get("/v1/traits/fire-blight?revision=7");
    assertThat(missing.statusCode()).isEqualTo(404);
    assertThat(missing.<List<List<String>>>path("errors.nearest")).containsExactly(List.of("1"));
  }

  @Test
  void filters_that_are_not_known_or_given_twice_are_refused_by_name() {
    Response misspelt = get("/v1/stocks?corp=apple");
    assertThat(misspelt.statusCode()).isEqualTo(400);
    assertThat(misspelt.<List<String>>path("errors.parameter")).containsExactly("corp");
    assertThat(misspelt.<List<List<String>>>path("errors.nearest"))
        .containsExactly(List.of("crop"));
    assertThat(get("/v1/stocks?crop=apple&crop=peach").statusCode()).isEqualTo(400);
    assertThat(get("/v1/stocks?limit=201").statusCode()).isBetween(400, 422);
    assertThat(get("/v1/stocks?crop=appel").<List<String>>path("errors.parameter"))
        .containsExactly("crop");
  }

  @Test
  void an_estimate_leads_to_its_records_and_their_sources() {
    Response estimates = get("/v1/estimates?crop=apple&subject=m-7&trait=fire-blight");
    List<String> records = estimates.path("items[0].records");
    assertThat(records).isNotEmpty();
    for (String id : records) {
      Response record = get("/v1/records/" + id);
      assertThat(record.<String>path("subject.stock")).isEqualTo("m-7");
      assertThat(record.<String>path("trait")).isEqualTo("fire-blight");
      Response source = get("/v1/sources/" + record.<String>path("source"));
      assertThat(source.<List<String>>path("records")).contains(id);
    }
  }
}
