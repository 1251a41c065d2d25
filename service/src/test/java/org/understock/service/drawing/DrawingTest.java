package org.understock.service.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.wording.Words;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class DrawingTest {
  /** Whatever a name holds, the picture can be parsed and says it as text. */
  @Test
  void text_comes_out_as_text_and_numbers_without_noise() throws Exception {
    String nasty = "<script>alert('x')</script> & \"Cox's\" \u0001𝄞";
    String svg =
        new Drawing(Words.ENGLISH, 100, 50.5, nasty, "what it says")
            .group(nasty, "fill", Palette.BLUE)
            .rect(1.0 / 3, 2, 3, 1e-9)
            .line(0, 0, 1, 1, "stroke", nasty)
            .end()
            .text(5, 6, nasty)
            .finish();
    Document document =
        DocumentBuilderFactory.newDefaultInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(svg)));
    String kept = nasty.replace("\u0001", "");
    assertThat(document.getElementsByTagName("text").item(0).getTextContent()).isEqualTo(kept);
    assertThat(document.getElementsByTagName("title").item(0).getTextContent()).isEqualTo(kept);
    assertThat(document.getElementsByTagName("script").getLength()).isZero();
    assertThat(document.getDocumentElement().getAttribute("viewBox")).isEqualTo("0 0 100 50.5");
    assertThat(document.getDocumentElement().getAttribute("role")).isEqualTo("img");
    assertThat(svg).contains("x=\"0.33\"").contains("height=\"0\"").doesNotContain("E-");
  }

  @Test
  void a_long_name_is_shortened_with_a_mark() {
    assertThat(Drawing.shortened("Cox's Orange Pippin", 10)).isEqualTo("Cox's Ora…");
    assertThat(Drawing.shortened("Gala", 4)).isEqualTo("Gala");
    assertThat(Drawing.shortened("ab𝄞cd", 4)).isEqualTo("ab…");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "image/svg+xml | true",
        "image/* | true",
        "*/* | false",
        "application/json | false",
        "image/svg+xml;q=0.5, */*;q=0.1 | true",
        "image/svg+xml, application/json | false",
        "text/html, image/svg+xml;q=0.9, */*;q=0.8 | true",
        "application/json, image/svg+xml;q=0.9 | false",
        "nonsense | false"
      })
  void a_picture_is_drawn_for_those_who_would_sooner_have_it(String accept, boolean wanted) {
    assertThat(Pictures.wanted(accept)).isEqualTo(wanted);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "text/html | true",
        "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8 | true",
        "*/* | false",
        "text/html, application/json | false",
        "text/html;q=0.8, image/svg+xml | false",
        "nonsense | false"
      })
  void a_page_is_written_for_those_who_would_sooner_have_it(String accept, boolean wanted) {
    assertThat(Pictures.pageWanted(accept)).isEqualTo(wanted);
  }

  @Test
  void without_a_wish_there_is_no_picture() {
    assertThat(Pictures.wanted(null)).isFalse();
    assertThat(Pictures.pageWanted(null)).isFalse();
  }
}
