package org.understock.evidence.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.evidence.reading.EvidenceReader.Tally;
import org.understock.trait.Value;

/**
 * Files as they come from spreadsheets and disks: each is read right, or refused with words that
 * tell what to do.
 */
class TroubledFilesTest {
  private static final String HEADER =
      "source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note\n";
  private static final String GOOD = "book,apple,A.1,height,,3,4,m,p. 1,\n";
  private static final String GOOD_TOO = "book,apple,A.2,height,,3,4,m,p. 2,\n";

  private final Gathered sink = new Gathered();

  private Tally read(Supplier<InputStream> bytes) {
    return new EvidenceReader(SmallCatalogue.read()).read(Kind.RATINGS, "x.csv", bytes, sink);
  }

  private Tally read(String text) {
    return read(() -> SmallCatalogue.bytes(text));
  }

  private String problem() {
    assertThat(sink.problems()).hasSize(1);
    return sink.problems().get(0).toString();
  }

  @Test
  void aByteOrderMarkIsPassedOver() {
    read("\uFEFF" + HEADER + GOOD);
    assertThat(sink.problems()).isEmpty();
    assertThat(sink.records()).hasSize(1);
  }

  /** 0xE9 is é in Latin-1. Bytes are counted from 1: header, good row, then 27 bytes before it. */
  @Test
  void aLatin1ByteIsNamedByLineAndByteAndOnlyItsRowRefused() {
    byte[] bytes =
        (HEADER + GOOD + "book,apple,A.1,height,,3,,m,été,\n" + GOOD_TOO)
            .getBytes(StandardCharsets.ISO_8859_1);
    assertThat(read(() -> new ByteArrayInputStream(bytes))).isEqualTo(new Tally("x.csv", 3, 1, 2));
    int at = HEADER.length() + GOOD.length() + "book,apple,A.1,height,,3,,m,".length() + 1;
    assertThat(problem())
        .startsWith(
            "x.csv:3, locator: is not UTF-8: byte " + at + " of the file, on line 3, is 0xE9")
        .contains("save the file as UTF-8");
  }

  @Test
  void manyLatin1RowsFarIntoAFileAreEachTold() {
    StringBuilder text = new StringBuilder(HEADER);
    for (int i = 0; i < 5000; i++)
      text.append("book,apple,A.1,height,,3,")
          .append(i % 2 == 0 ? "4" : "")
          .append(",m,p. ")
          .append(i)
          .append(i % 100 == 0 ? "\u00FC\u00DF" : "")
          .append(",\n");
    byte[] bytes = text.toString().getBytes(StandardCharsets.ISO_8859_1);
    Tally tally = read(() -> new ByteArrayInputStream(bytes));
    assertThat(tally.refused()).isEqualTo(50);
    assertThat(sink.problems())
        .hasSize(50)
        .allMatch(p -> p.text().contains("on line " + p.line() + ", is 0xFC"));
  }

  @Test
  void aCutOffCharacterAtTheEndIsTold() {
    byte[] whole =
        (HEADER + GOOD + "book,apple,A.1,height,,3,,m,p. 1,\u00E9")
            .getBytes(StandardCharsets.UTF_8);
    read(() -> new ByteArrayInputStream(whole, 0, whole.length - 1));
    assertThat(problem()).contains("x.csv:3, note: is not UTF-8").contains("0xC3");
  }

  @Test
  void utf16IsNamed() {
    read(() -> new ByteArrayInputStream((HEADER + GOOD).getBytes(StandardCharsets.UTF_16)));
    assertThat(problem()).contains("UTF-16").contains("save it as UTF-8");
  }

  @Test
  void lineEndsInsideQuotesBelongToTheText() {
    read(
        HEADER
            + "book,apple,A.1,height,,3,4,m,p. 1,\"one\r\ntwo\nthree\"\n"
            + "book,apple,A.1,height,,3,99,m,p. 1,\n");
    assertThat(sink.records()).extracting(TraitRecord::note).containsExactly("one\r\ntwo\nthree");
    assertThat(problem()).startsWith("x.csv:5, value_low:");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\r", "\r\n", "\n"})
  void anyLineEndWillDo(String end) {
    read((HEADER + GOOD + "book,apple,A.1,height,,3,99,m,p. 1,\n" + GOOD_TOO).replace("\n", end));
    assertThat(sink.records()).hasSize(2);
    assertThat(problem()).startsWith("x.csv:3");
  }

  @Test
  void aRowOfAMillionColumnsIsOneBadRow() {
    Tally tally = read(HEADER + GOOD + "x,".repeat(999_999) + "x\n" + GOOD_TOO);
    assertThat(tally).isEqualTo(new Tally("x.csv", 3, 1, 2));
    assertThat(problem()).isEqualTo("x.csv:3: has 1000000 fields; the header names 10");
  }

  @Test
  void aHeaderOfAMillionColumnsIsRefusedInAFewWords() {
    read("x,".repeat(999_999) + "x\n" + GOOD);
    assertThat(sink.records()).isEmpty();
    assertThat(sink.problems()).hasSizeLessThan(250).allMatch(p -> p.text().length() < 200);
  }

  /** 200 MB in one field, made as it is read. */
  @Test
  void aFieldOf200MegabytesEndsTheReadingInLittleMemory() {
    byte[] head =
        (HEADER + GOOD + "book,apple,A.1,height,,3,4,m,\"").getBytes(StandardCharsets.UTF_8);
    long[] served = {0};
    read(
        () ->
            new InputStream() {
              @Override
              public int read() {
                long at = served[0]++;
                return at < head.length ? head[(int) at] : at < 200_000_000L ? 'x' : -1;
              }
            });
    assertThat(sink.records()).hasSize(1);
    assertThat(problem())
        .startsWith(
            "x.csv:3: is not readable as CSV: a field of the row that begins here is longer than 65536 characters")
        .contains("nothing was read from here on");
    assertThat(served[0]).as("bytes taken in").isLessThan(1_000_000);
  }

  @Test
  void aLongFieldIsRefusedByItsLengthAndTheNextRowRead() {
    read(HEADER + "book,apple,A.1,height,,3,4,m,p. 1," + "x".repeat(5000) + "\n" + GOOD_TOO);
    assertThat(sink.records()).hasSize(1);
    assertThat(problem()).isEqualTo("x.csv:2, note: note is 5000 characters; must be at most 2000");
  }

  @ParameterizedTest
  @ValueSource(strings = {"=cmd()", "+1-1", "-dash", "@sum"})
  void whatLooksLikeAFormulaIsTextAsItStands(String text) {
    read(
        HEADER
            + "book,apple,A.1,height,,3,4,m,p. 1,"
            + text
            + "\nbook,apple,A.1,height,,3,5,m,p. 1,'"
            + text
            + "\n");
    assertThat(sink.records()).extracting(TraitRecord::note).containsExactly(text, text);
  }

  @Test
  void aFormulaInPlaceOfANumberIsRefused() {
    read(HEADER + "book,apple,A.1,height,,=1+2,4,m,p. 1,\n");
    assertThat(problem()).startsWith("x.csv:2, value_low").contains("instead of the formula");
  }

  @Test
  void aColumnNamedTwiceIsNamedWithBothPlaces() {
    read(HEADER.replace("note", "locator") + GOOD);
    assertThat(sink.problems())
        .extracting(Object::toString)
        .containsExactly(
            "x.csv:1: column 'locator' is named twice, as column 9 and 10",
            "x.csv:1: column note is missing");
  }

  @Test
  void missingAndUnknownColumnsAreNamed() {
    read(HEADER.replace("source_id", "sourceid").replace("unit,", "") + GOOD);
    assertThat(sink.problems())
        .extracting(Object::toString)
        .containsExactly(
            "x.csv:1: column 'sourceid' is not known; nearest known: source_id",
            "x.csv:1: column source_id is missing",
            "x.csv:1: column unit is missing");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "\uFEFF", "\n\n", "\r\n"})
  void anEmptyFileSaysSo(String text) {
    read(text);
    assertThat(problem()).contains("the file is empty; its first line must name the columns");
  }

  @Test
  void aHeaderAloneIsAFileOfNoRows() {
    assertThat(read(HEADER)).isEqualTo(new Tally("x.csv", 0, 0, 0));
    assertThat(sink.problems()).isEmpty();
  }

  @Test
  void rowsOfNothingButCommasArePassedOver() {
    assertThat(read(HEADER + GOOD + ",,,,,,,,,\n\n")).isEqualTo(new Tally("x.csv", 1, 0, 1));
  }

  @Test
  void aNulIsNamed() {
    read(HEADER + "book,apple,A.1,height,,3,4,m,p.\0 1,\n" + GOOD_TOO);
    assertThat(problem())
        .isEqualTo(
            "x.csv:2, locator: holds the control character U+0000 at character 3; take it out");
    assertThat(sink.records()).hasSize(1);
  }

  @ParameterizedTest
  @ValueSource(strings = {";", "\t"})
  void anotherSeparatorIsNamed(String separator) {
    read((HEADER + GOOD).replace(",", separator));
    assertThat(problem())
        .contains(separator.equals(";") ? "separated by semicolons" : "separated by tabs")
        .contains("by commas");
  }

  @Test
  void aDecimalCommaIsNamed() {
    read(HEADER + "book,apple,A.1,height,,\"3,5\",4,m,p. 1,\n");
    assertThat(problem()).contains("'3,5'; must be a decimal number with a point: 3.5");
  }

  @Test
  void aNumberOfManyDigitsIsANumber() {
    read(
        HEADER
            + "book,apple,A.1,height,,3.12345678901234567890123,3.12345678901234567890123,m,p. 1,\n");
    assertThat(sink.records())
        .extracting(TraitRecord::value)
        .containsExactly(new Value.Quantity(3.12345678901234567890123));
  }

  @Test
  void anOpenQuoteEndsTheReadingWhereItOpens() {
    read(HEADER + GOOD + "book,apple,A.1,height,,3,4,m,p. 1,\"open\n" + GOOD_TOO);
    assertThat(sink.records()).hasSize(1);
    assertThat(problem()).startsWith("x.csv:3: is not readable as CSV");
  }

  @Test
  void noiseIsNeverAnException() {
    java.util.Random random = new java.util.Random(7);
    for (int i = 0; i < 300; i++) {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      if (i % 2 == 0) bytes.writeBytes((HEADER + GOOD).getBytes(StandardCharsets.UTF_8));
      byte[] noise = new byte[random.nextInt(3000)];
      random.nextBytes(noise);
      if (i % 3 == 0)
        for (int k = 0; k < noise.length; k++)
          noise[k] = (byte) ",\"\r\n;ab'=\u0000".charAt((noise[k] & 0xFF) % 10);
      bytes.writeBytes(noise);
      for (Kind kind : Kind.values()) {
        new EvidenceReader(SmallCatalogue.read())
            .read(
                kind, "x.csv", () -> new ByteArrayInputStream(bytes.toByteArray()), new Gathered());
      }
    }
  }
}
