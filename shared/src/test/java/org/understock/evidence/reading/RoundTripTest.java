package org.understock.evidence.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.evidence.Canonical;
import org.understock.evidence.Context;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.Subject.Pairing.Reach;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * Whatever a record may hold, by whichever door it came, it can be written to a file and read back
 * as the same statement.
 */
class RoundTripTest {
  private static final List<String> WORDS =
      List.of(
          "=cmd()",
          "+1",
          "-2 to -3",
          "@sum",
          "'quoted'",
          "'=x",
          "''-y",
          "\"in quotes\"",
          "a, b; c",
          "two\nlines",
          "three\r\n\r\nlines",
          "age=5 and more",
          "said of the class quince",
          "none",
          "n.d.",
          "all apples",
          "any scion wood infected with X",
          "-5",
          "3..4",
          "été",
          "Ř\uD83C\uDF4E",
          "tab\there",
          "plum",
          "species default",
          "\uFF1Dwide",
          "#hash",
          "a | b",
          "'",
          "=",
          "0012",
          "1e5",
          ",",
          "\\n");

  private final Catalogue catalogue = SmallCatalogue.read();
  private final RecordCheck check =
      new RecordCheck(catalogue.traits(), catalogue.plants(), catalogue.sources());

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void randomRecords(long seed) throws IOException {
    Random random = new Random(seed);
    TreeSet<String> written = new TreeSet<>();
    List<TraitRecord> records = new ArrayList<>();
    int tried = 0;
    while (records.size() < 2000) {
      tried++;
      RecordCheck.Draft draft = draft(random);
      if (check.problems(draft).isEmpty() && written.add(Canonical.text(draft)))
        records.add(check.make(draft));
    }
    assertThat(tried).as("drafts that were records").isLessThan(20_000);
    assertThat(records.stream().map(EvidenceFile::kindOf).distinct()).hasSize(4);
    assertThat(textsReadBack(records)).isEqualTo(written);
  }

  private TreeSet<String> textsReadBack(List<TraitRecord> records) throws IOException {
    Map<Kind, StringWriter> texts = new EnumMap<>(Kind.class);
    Map<Kind, EvidenceFile> files = new EnumMap<>(Kind.class);
    for (TraitRecord record : records) {
      files
          .computeIfAbsent(
              EvidenceFile.kindOf(record),
              kind ->
                  new EvidenceFile(
                      kind,
                      catalogue.traits(),
                      texts.computeIfAbsent(kind, k -> new StringWriter())))
          .write(record);
    }
    Gathered sink = new Gathered();
    EvidenceReader reader = new EvidenceReader(catalogue);
    for (EvidenceFile file : files.values()) file.close();
    texts.forEach(
        (kind, text) ->
            reader.read(kind, kind.file(), () -> SmallCatalogue.bytes(text.toString()), sink));
    assertThat(sink.problems()).isEmpty();
    TreeSet<String> read = new TreeSet<>();
    for (TraitRecord record : sink.records()) assertThat(read.add(Canonical.text(record))).isTrue();
    return read;
  }

  private RecordCheck.Draft draft(Random random) {
    Trait trait = pick(random, catalogue.traits().all());
    Method method = pick(random, List.of(Method.values()));
    String source =
        method == Method.FROM_MEMORY ? "memory" : pick(random, List.of("book", "trial"));
    return new RecordCheck.Draft(
        subject(random, trait),
        trait.id(),
        value(random, trait),
        method,
        source,
        pick(random, WORDS),
        context(random),
        random.nextBoolean() ? "" : pick(random, WORDS));
  }

  private Subject subject(Random random, Trait trait) {
    Trait.SubjectKind kind = pick(random, List.copyOf(trait.subjects()));
    String stock = pick(random, List.of("a-1", "a-2", "as"));
    if (kind == Trait.SubjectKind.STOCK)
      return new Subject.StockIn(pick(random, List.of(Crop.values())), stock);
    String variety = pick(random, List.of("red", "green"));
    if (kind == Trait.SubjectKind.VARIETY) return new Subject.OfVariety(Crop.APPLE, variety);
    Reach reach = pick(random, List.of(Reach.values()));
    return new Subject.Pairing(Crop.APPLE, stock, reach == Reach.NAMED ? variety : null, reach);
  }

  private static Value value(Random random, Trait trait) {
    return switch (trait.scale()) {
      case LEVELS -> new Value.Level(pick(random, trait.levels()));
      case NAMES -> new Value.Name("S" + random.nextInt(30) + "S" + random.nextInt(30));
      case CONTRAST -> new Value.Quantity(number(random, trait));
      case QUANTITY, INTERVAL -> {
        double a = number(random, trait);
        double b = number(random, trait);
        yield switch (random.nextInt(4)) {
          case 0 -> new Value.Range(Math.min(a, b), Math.max(a, b));
          case 1 -> new Value.Range(a, null);
          case 2 -> new Value.Range(null, a);
          default -> new Value.Quantity(a);
        };
      }
    };
  }

  /** Round numbers, numbers of seventeen digits, and very small ones. */
  private static double number(Random random, Trait trait) {
    double any = trait.min() + random.nextDouble() * (trait.max() - trait.min());
    return switch (random.nextInt(4)) {
      case 0 -> Math.round(any);
      case 1 -> trait.min() <= 0 ? Double.MIN_VALUE * (1 + random.nextInt(5)) : trait.min();
      case 2 -> Math.round(any * 100) / 100.0;
      default -> any;
    };
  }

  private static Context context(Random random) {
    Context.Spread spread =
        random.nextInt(3) > 0
            ? null
            : new Context.Spread(
                pick(random, List.of(Context.Spread.Kind.values())),
                random.nextBoolean() ? 0.1 + random.nextInt(9) : random.nextDouble() * 1e-9);
    Integer planted = random.nextBoolean() ? null : 1990 + random.nextInt(5);
    return new Context(
        some(random),
        some(random),
        some(random),
        planted,
        random.nextBoolean() ? null : 2000 + random.nextInt(5),
        random.nextBoolean() ? null : 1 + random.nextInt(40),
        spread,
        some(random),
        random.nextBoolean() ? null : random.nextInt(50),
        some(random));
  }

  private static @Nullable String some(Random random) {
    return random.nextBoolean() ? null : pick(random, WORDS);
  }

  private static <T> T pick(Random random, List<T> from) {
    return from.get(random.nextInt(from.size()));
  }

  @Test
  void sourcesAndPlants() throws IOException {
    List<Source> sources = new ArrayList<>();
    for (int i = 0; i < WORDS.size(); i++) {
      String word = WORDS.get(i);
      sources.add(
          new Source(
              "s-" + i,
              "handbook",
              word,
              word,
              i % 3 == 0 ? null : "2014-15",
              i % 2 == 0 ? "" : word,
              i % 2 == 0 ? word : null,
              i % 2 == 0 ? null : "https://example.org/?a=" + i,
              word,
              i + 1 < WORDS.size() ? "s-" + (i + 1) : null));
    }
    List<Stock> stocks =
        List.of(
            new Stock(
                "q-2",
                "=Q.2",
                Stock.Kind.CLONE,
                java.util.Set.of(Crop.QUINCE, Crop.APPLE),
                "q-1",
                List.of("-q", "'q", "q, 2")),
            new Stock(
                "q-1",
                "Q.1",
                Stock.Kind.OWN_ROOTS,
                java.util.Set.of(Crop.QUINCE),
                null,
                List.of()));
    List<Variety> varieties =
        List.of(new Variety("blue", Crop.APPLE, "Blue", List.of("=b", "B 1")));
    Gathered sink = new Gathered();
    EvidenceReader reader = new EvidenceReader(catalogue);
    for (Kind kind : List.of(Kind.SOURCES, Kind.STOCKS, Kind.VARIETY_CATALOGUE)) {
      StringWriter text = new StringWriter();
      try (EvidenceFile file = new EvidenceFile(kind, catalogue.traits(), text)) {
        if (kind == Kind.SOURCES) sources.forEach(file::write);
        if (kind == Kind.STOCKS) stocks.forEach(file::write);
        if (kind == Kind.VARIETY_CATALOGUE) varieties.forEach(file::write);
      }
      reader.read(kind, kind.file(), () -> SmallCatalogue.bytes(text.toString()), sink);
    }
    assertThat(sink.problems()).isEmpty();
    assertThat(sink.sources()).containsExactlyInAnyOrderElementsOf(sources);
    assertThat(sink.sources().get(0).origin()).as("what it restates comes first").isNull();
    assertThat(sink.stocks()).extracting(Stock::id).containsExactly("q-1", "q-2");
    assertThat(sink.stocks())
        .extracting(Canonical::text)
        .containsExactlyInAnyOrderElementsOf(stocks.stream().map(Canonical::text).toList());
    assertThat(sink.varieties()).isEqualTo(varieties);
  }

  /** A spreadsheet carries out what begins with one of these. */
  @Test
  void noTextIsWrittenSoThatASpreadsheetCarriesItOut() throws IOException {
    StringWriter text = new StringWriter();
    try (EvidenceFile file = new EvidenceFile(Kind.RATINGS, catalogue.traits(), text)) {
      file.write(
          check.make(
              new RecordCheck.Draft(
                  new Subject.StockIn(Crop.APPLE, "a-1"),
                  "rot",
                  new Value.Level("low"),
                  Method.EXPERT_RATING,
                  "book",
                  "=HYPERLINK(\"http://example.org\")",
                  Context.NONE,
                  "@SUM(A1)")));
    }
    assertThat(text.toString().lines().skip(1))
        .singleElement()
        .asString()
        .contains("'=HYPERLINK")
        .contains("'@SUM(A1)");
  }
}
