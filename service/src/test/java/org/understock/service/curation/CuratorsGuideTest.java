package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/**
 * Runs what stands in the boxes of the curator's guide, top to bottom, in one shell, against the
 * running service; then, on the same store, the requests of {@code curator.http}.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
@TestPropertySource(
    properties = "understock.test=guide") // a store of its own: the guide makes revisions
class CuratorsGuideTest extends RunningService {
  private static final Pattern BOX =
      Pattern.compile("^```bash\\n(.*?)^```$", Pattern.DOTALL | Pattern.MULTILINE);

  @Test
  @Order(1)
  void what_the_guide_says_works() throws Exception {
    StringBuilder script = new StringBuilder("set -euo pipefail\n");
    Matcher boxes = BOX.matcher(Files.readString(Path.of("../api-spec/curators-guide.md")));
    while (boxes.find()) script.append(boxes.group(1));
    Path folder = Files.createTempDirectory("understock-guide");
    Path tokens =
        Files.writeString(
            folder.resolve("tokens"),
            "evidence:propose token: "
                + tokens().proposer()
                + "\nevidence:review token: "
                + tokens().reviewer()
                + "\n");
    Path output = folder.resolve("output");
    ProcessBuilder bash =
        new ProcessBuilder("bash", "-c", script.toString())
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(output.toFile());
    bash.environment().put("BASE", "http://localhost:" + port());
    bash.environment().put("TOKENS", tokens.toString());
    Process process = bash.start();
    assertThat(process.waitFor(5, TimeUnit.MINUTES)).isTrue();
    String said = Files.readString(output, StandardCharsets.UTF_8);
    assertThat(process.exitValue()).as(said).isZero();

    assertThat(said).contains("proposed: r-").contains("revision 2 follows 1").contains("}422\n");
    assertThat(said.strip()).as("rows known when the file is sent again").endsWith("3");
    assertThat(Files.readString(folder.resolve("refused.json")))
        .contains("\"line\":2", "\"column\":\"stock\"", "nearest known");
    assertThat(Files.readString(folder.resolve("impact.json")))
        .contains("\"subject\":\"m-7\"", "\"trait\":\"fire-blight\"", "\"before\"", "\"after\"");
    assertThat(Files.readString(folder.resolve("record.json")))
        .contains("moderately-resistant", "invented-orchard-notes", "page 12");
    assertThat(Files.readString(folder.resolve("after.json")))
        .isNotEqualTo(Files.readString(folder.resolve("before.json")));
    assertThat(Files.readString(folder.resolve("out/ratings.csv")))
        .contains("page 13", "\"two lines\nof a note\"");
    for (String file :
        List.of(
            "sources.csv",
            "stocks.csv",
            "variety-catalogue.csv",
            "trial-means.csv",
            "varieties.csv",
            "compatibility.csv",
            "records.ndjson")) {
      assertThat(Files.size(folder.resolve("out").resolve(file))).as(file).isGreaterThan(1000);
    }
  }

  @Test
  @Order(2)
  void every_request_of_the_http_file_works() throws Exception {
    List<HttpFile.Exchange> session =
        new HttpFile(Path.of("../api-spec/curator.http"))
            .with("base", "http://localhost:" + port())
            .with("propose", tokens().proposer())
            .with("review", tokens().reviewer())
            .send();

    assertThat(session).hasSize(21);
    assertThat(session)
        .filteredOn(exchange -> exchange.path().equals("/v1/advice"))
        .extracting(HttpFile.Exchange::body)
        .hasSize(2)
        .doesNotHaveDuplicates();
    assertThat(session)
        .filteredOn(exchange -> exchange.path().startsWith("/v1/curation/exports/ratings"))
        .singleElement()
        .satisfies(ratings -> assertThat(ratings.body()).contains("invented-session-notes"));
  }
}
