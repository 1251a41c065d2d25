package org.understock.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.trait.Traits;
import org.understock.trait.Value;

class CanonicalTest {
  private static RecordCheck.Draft draft(String note, Value value) {
    return new RecordCheck.Draft(
        new Subject.StockIn(Crop.APPLE, "m-7"),
        "mature-height",
        value,
        Method.EXPERT_RATING,
        "a-book",
        "p. 1",
        Context.NONE,
        note);
  }

  /** The text is fixed for good: ids and digests of every record hang on it. */
  @Test
  void theTextOfARecord() {
    assertThat(Canonical.text(draft("two\nlines", new Value.Range(2.40, null))))
        .isEqualTo(
            "record\ncrop=apple\nstock=m-7\ntrait=mature-height\nvalue=2.4..\nmethod=expert-rating\nsource=a-book\nlocator=p. 1\nnote=two\\nlines");
  }

  /** First 16 digits of what sha256sum prints for the text above with value=3 and no note. */
  @Test
  void theIdOfARecord() {
    assertThat(Canonical.id(draft("", new Value.Quantity(3)))).isEqualTo("r-b885c8169073ea7d");
  }

  @Test
  void anyDifferenceMakesAnotherId() {
    assertThat(Canonical.id(draft("", new Value.Quantity(3))))
        .isNotEqualTo(Canonical.id(draft("", new Value.Quantity(3.0000001))));
    assertThat(Canonical.id(draft("a", new Value.Quantity(3))))
        .isNotEqualTo(Canonical.id(draft("b", new Value.Quantity(3))));
  }

  @ParameterizedTest
  @CsvSource({
    "3, 3",
    "3.50, 3.5",
    "-0.0, 0",
    "1e-7, 0.0000001",
    "1e21, 1000000000000000000000",
    "0.1, 0.1",
    "89.33, 89.33"
  })
  void numbersInPlainNotation(double value, String text) {
    assertThat(Canonical.number(value)).isEqualTo(text);
  }

  /** SHA-256 of "abc": FIPS 180-4, example of one block. */
  @Test
  void sha256() {
    assertThat(Canonical.sha256("abc"))
        .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  }

  @Test
  void aDigestHangsOnTheOneBefore() {
    Evidence empty =
        new Evidence(new Traits(List.of()), new Plants(List.of(), List.of()), Map.of(), List.of());
    String first = Canonical.digest("", empty, List.of());
    assertThat(first).hasSize(64);
    assertThat(Canonical.digest(first, empty, List.of())).isNotEqualTo(first);
  }
}
