package org.understock.evidence.reading;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.understock.evidence.Canonical;
import org.understock.evidence.Ordering;
import org.understock.evidence.Problem;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * What must hold of any bytes that are read as a file of evidence: the reader throws nothing, every
 * problem has its line and words, the tally adds up, and what was read can be written and is read
 * back as the same. Entry for a fuzzer guided by coverage; {@code FuzzedFilesTest} goes through
 * what it found.
 */
public final class EvidenceFuzz {
  private static final Catalogue CATALOGUE = SmallCatalogue.read();

  private EvidenceFuzz() {}

  /** The first byte chooses the kind of file, {@code 0} to {@code 9}; the others are the file. */
  public static void fuzzerTestOneInput(byte[] input) {
    if (input.length == 0) return;
    Kind kind = Kind.values()[Math.floorMod(input[0] - '0', Kind.values().length)];
    byte[] file = Arrays.copyOfRange(input, 1, input.length);
    Gathered read = new Gathered();
    EvidenceReader.Tally tally = read(kind, file, read);
    for (Problem problem : read.problems())
      check(
          problem.line() >= 1 && !problem.text().isBlank(),
          "a problem without line or words: " + problem);
    check(
        tally.rows() >= 0 && tally.refused() <= tally.rows() && entries(read) == tally.read(),
        "the tally does not add up: " + tally + ", handed on " + entries(read));
    check(
        tally.refused() == 0 || !read.problems().isEmpty(),
        "a row is refused and nobody is told: " + tally);
    check(
        tally.rows() <= tally.refused() + entries(read),
        "a row is neither read nor refused: " + tally);
    Map<Kind, String> written = written(read);
    Gathered again = new Gathered();
    written.forEach((k, text) -> read(k, text.getBytes(StandardCharsets.UTF_8), again));
    check(again.problems().isEmpty(), "what was written is refused: " + again.problems() + written);
    check(texts(again).equals(texts(read)), "what was written is read back as another: " + written);
  }

  private static EvidenceReader.Tally read(Kind kind, byte[] file, Sink sink) {
    return new EvidenceReader(CATALOGUE)
        .read(kind, "any.csv", () -> new ByteArrayInputStream(file), sink);
  }

  private static void check(boolean holds, String otherwise) {
    if (!holds) throw new AssertionError(otherwise);
  }

  private static int entries(Gathered read) {
    return read.records().size()
        + read.sources().size()
        + read.stocks().size()
        + read.varieties().size()
        + read.orderings().size()
        + names(read.stockNames())
        + names(read.varietyNames());
  }

  private static int names(Map<String, List<String>> ofPlants) {
    return ofPlants.values().stream().mapToInt(List::size).sum();
  }

  private static TreeSet<String> texts(Gathered read) {
    TreeSet<String> texts = new TreeSet<>();
    for (TraitRecord record : read.records()) texts.add(Canonical.text(record));
    for (Source source : read.sources()) texts.add(source.toString());
    for (Stock stock : read.stocks()) texts.add(stock.toString());
    for (Variety variety : read.varieties()) texts.add(variety.toString());
    for (Ordering ordering : read.orderings()) texts.add(ordering.toString());
    return texts;
  }

  private static Map<Kind, String> written(Gathered read) {
    Map<Kind, StringWriter> texts = new EnumMap<>(Kind.class);
    Map<Kind, EvidenceFile> files = new EnumMap<>(Kind.class);
    for (Kind kind : Kind.values()) {
      StringWriter text = new StringWriter();
      texts.put(kind, text);
      files.put(kind, new EvidenceFile(kind, CATALOGUE.traits(), text));
    }
    for (TraitRecord record : read.records()) files.get(EvidenceFile.kindOf(record)).write(record);
    for (Source source : read.sources()) files.get(Kind.SOURCES).write(source);
    for (Stock stock : read.stocks()) files.get(Kind.STOCKS).write(stock);
    for (Variety variety : read.varieties()) files.get(Kind.VARIETY_CATALOGUE).write(variety);
    for (Ordering ordering : read.orderings()) files.get(Kind.ORDERINGS).write(ordering);
    Map<Kind, String> written = new EnumMap<>(Kind.class);
    files.forEach(
        (kind, file) -> {
          try {
            file.close();
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
          String text = texts.get(kind).toString();
          if (text.lines().count() > 1) written.put(kind, text);
        });
    return written;
  }
}
