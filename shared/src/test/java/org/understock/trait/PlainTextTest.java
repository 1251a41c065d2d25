package org.understock.trait;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What a kept text may hold; that UTF-8 agrees is asked of the platform's own encoder. */
class PlainTextTest {
  private static final String TREE = "\uD83C\uDF33";

  @Test
  void the_first_misfit_is_told_by_its_place() {
    assertThat(PlainText.misfit("K\u00f6r-Obi, " + TREE + "\n\t3 m")).isEqualTo(-1);
    assertThat(PlainText.misfit("")).isEqualTo(-1);
    assertThat(PlainText.misfit("ab\u0007")).isEqualTo(2);
    assertThat(PlainText.misfit("a\u007F")).isEqualTo(1);
    assertThat(PlainText.misfit("caf\uFFFD")).isEqualTo(3);
    assertThat(PlainText.misfit(TREE + "\uDF33\u0000")).isEqualTo(2);
    assertThat(PlainText.misfit("\u0000\uDF33")).isEqualTo(0);
  }

  @Test
  void what_cannot_be_kept_is_what_no_encoder_takes_and_the_zero() {
    for (String text : List.of("\uD83C", "a\uD83C", "\uD83Ca", "\uDF33", "\uD83C" + TREE, TREE))
      assertThat(PlainText.unkeepable(text) < 0).as(text).isEqualTo(isEncodable(text));
    assertThat(PlainText.unkeepable("\uD83C" + TREE)).isZero();
    assertThat(PlainText.unkeepable(TREE + "\u0000")).isEqualTo(2);
    assertThat(PlainText.unkeepable("a bell \u0007 and a lost letter \uFFFD")).isEqualTo(-1);
  }

  @Test
  void a_refusal_names_the_field_the_character_and_where_it_stands() {
    assertThatThrownBy(() -> PlainText.check("locator", "Table \u0000", 100))
        .hasMessageContaining("locator")
        .hasMessageContaining("control character U+0000 at character 7");
    assertThatThrownBy(() -> PlainText.check("locator", "Table 1 ", 100))
        .hasMessageContaining("white space");
    assertThatThrownBy(() -> PlainText.check("locator", "Table 1", 6))
        .hasMessageContaining("at most 6");
  }

  private static boolean isEncodable(String text) {
    try {
      StandardCharsets.UTF_8.newEncoder().encode(java.nio.CharBuffer.wrap(text));
      return true;
    } catch (CharacterCodingException e) {
      return false;
    }
  }
}
