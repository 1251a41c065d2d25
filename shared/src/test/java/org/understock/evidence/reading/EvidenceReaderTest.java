package org.understock.evidence.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.evidence.Method;
import org.understock.evidence.Problem;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.trait.Value;

/** The numbers here are made up to try the reader, and are no facts. */
class EvidenceReaderTest {
  private static final String MEANS =
      "source_id,trial_id,crop,scion,site,planted_year,measured_year,stock,trait,value,unit,n_trees,spread_kind,spread_value,locator\n";
  private static final String RATINGS =
      "source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note,measured_as\n";
  private static final String VARIETIES =
      "source_id,crop,variety,attribute,value,unit,locator,note\n";
  private static final String VERDICTS =
      "source_id,crop,stock,variety,verdict,interstem,locator,note\n";

  private final EvidenceReader reader = new EvidenceReader(SmallCatalogue.read());

  private final Gathered sink = new Gathered();
  private EvidenceReader.Tally tally = new EvidenceReader.Tally("", 0, 0, 0);

  private List<TraitRecord> read(EvidenceReader.Kind kind, String text) {
    tally = reader.read(kind, "x.csv", () -> SmallCatalogue.bytes(text), sink);
    return sink.records();
  }

  @Test
  void aTrialMeanInItsContext() {
    TraitRecord record =
        read(
                EvidenceReader.Kind.TRIAL_MEANS,
                MEANS + "trial,t,apple,Red,Here,2010,2014,Alpha 1,trunk,12.5,cm2,8,HSD,3,Table 1\n")
            .get(0);
    assertThat(record.subject()).isEqualTo(new Subject.StockIn(Crop.APPLE, "a-1"));
    assertThat(record.value()).isEqualTo(new Value.Quantity(12.5));
    assertThat(record.method()).isEqualTo(Method.REPLICATED_SINGLE_SITE);
    assertThat(record.context().spread().value()).isEqualTo(3);
    assertThat(record.context().trees()).isEqualTo(8);
  }

  @Test
  void aTrialOfTwoSitesIsTaggedSo() {
    List<TraitRecord> records =
        read(
            EvidenceReader.Kind.TRIAL_MEANS,
            MEANS
                + "trial,t,apple,Red,Here,2010,2014,A.1,trunk,12.5,cm2,,none,,Table 1\ntrial,t,apple,Red,There,2010,2014,A.1,trunk,9,cm2,,,,Table 1\n");
    assertThat(records)
        .extracting(TraitRecord::method)
        .containsOnly(Method.REPLICATED_MULTI_SITE)
        .hasSize(2);
  }

  @Test
  void aFigureBesideALevelGoesToItsOwnTrait() {
    List<TraitRecord> records =
        read(
            EvidenceReader.Kind.RATINGS,
            RATINGS + "trial,apple,A.1,rot,middle,10,20,%,p. 3,,rot-share\n");
    assertThat(records).extracting(TraitRecord::trait).containsExactly("rot", "rot-share");
    assertThat(records)
        .extracting(TraitRecord::value)
        .containsExactly(new Value.Level("middle"), new Value.Range(10.0, 20.0));
  }

  @Test
  void openRangesAndEqualEnds() {
    List<TraitRecord> records =
        read(
            EvidenceReader.Kind.RATINGS,
            RATINGS
                + "book,apple,A.1,height,,6,,m,p. 1,,\nbook,apple,A.1,height,,,9.1,m,p. 1,,\nbook,apple,A.1,height,,3,3,m,p. 1,,\n");
    assertThat(records)
        .extracting(TraitRecord::value)
        .containsExactly(
            new Value.Range(6.0, null), new Value.Range(null, 9.1), new Value.Quantity(3));
  }

  @Test
  void weeksFromAnotherVarietyBecomeDays() {
    TraitRecord record =
        read(
                EvidenceReader.Kind.VARIETIES,
                VARIETIES
                    + "book,apple,Red,harvest-season,-1 to -2,weeks relative to Green,p. 1,\n")
            .get(0);
    assertThat(record.trait()).isEqualTo("harvest-offset");
    assertThat(record.value()).isEqualTo(new Value.Range(-14.0, -7.0));
    assertThat(record.context().relativeTo()).isEqualTo("Green");
  }

  @Test
  void whatIsSaidOfTheWholeCropIsSaidOfEachVariety() {
    List<TraitRecord> records =
        read(
            EvidenceReader.Kind.VARIETIES,
            VARIETIES + "book,apple,species default,harvest-season,Aug,,p. 1,\n");
    assertThat(records)
        .extracting(TraitRecord::subject)
        .containsExactly(
            new Subject.OfVariety(Crop.APPLE, "green"), new Subject.OfVariety(Crop.APPLE, "red"));
    assertThat(records).allMatch(r -> r.note().contains("said of the crop as a whole"));
  }

  @Test
  void aClassSpeaksForItsMembersUnlessTheySpeakForThemselves() {
    List<TraitRecord> records =
        read(
            EvidenceReader.Kind.COMPATIBILITY,
            VERDICTS
                + "book,apple,A stocks,apple in general,compatible,,p. 1,\nbook,apple,A.1,all apples,incompatible,,p. 2,\nbook,apple,A stocks,Red,incompatible,Green,p. 3,\n");
    assertThat(records)
        .extracting(
            r ->
                ((Subject.Pairing) r.subject()).stock()
                    + " "
                    + ((Subject.Pairing) r.subject()).reach())
        .containsExactly("as MOST", "a-2 MOST", "a-1 ALL", "as NAMED", "a-1 NAMED", "a-2 NAMED");
    assertThat(records.get(4).context().interstem()).isEqualTo("Green");
  }

  @Test
  void infectedWoodIsNoGraftVerdict() {
    TraitRecord record =
        read(
                EvidenceReader.Kind.COMPATIBILITY,
                VERDICTS + "book,apple,A.1,any scion wood infected with X,incompatible,,p. 1,\n")
            .get(0);
    assertThat(record.trait()).isEqualTo("latent-virus");
    assertThat(record.subject()).isEqualTo(new Subject.StockIn(Crop.APPLE, "a-1"));
  }

  @ParameterizedTest(name = "{0} means {1}")
  @CsvSource({
    "all cherries, ALL",
    "any cherry, ALL",
    "most prune varieties, MOST",
    "peach in general, MOST",
    "several cultivars, SOME",
    "5 sour cherry cultivars, SOME",
    "some peach varieties, SOME",
    "Japanese plum (mean of cultivars), SOME",
    "most nectarine varieties, SOME",
    "Alligator, NAMED",
    "Mostar, NAMED"
  })
  void reachOfWords(String words, Subject.Pairing.Reach reach) {
    assertThat(Verdicts.reach(words)).isEqualTo(reach);
  }

  @ParameterizedTest(name = "{0} {1}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
      trial,t,pear,Red,Here,2010,2014,A.1,trunk,12,cm2,,,,T1        | crop          | not known
      trial,t,apple,Red,Here,2010,2014,Q.9,trunk,12,cm2,,,,T1       | stock         | not known
      trial,t,apple,Red,Here,2010,2014,A.1,trunc,12,cm2,,,,T1       | trait         | nearest known: trunk
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,twelve,cm2,,,,T1   | value         | a decimal number
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,NaN,cm2,,,,T1      | value         | a decimal number
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,1200,cm2,,,,T1     | value         | between 0 and 100 cm2
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,12,m,,,,T1         | unit          | cm2 for trait trunk
      trial,t,apple,Red,Here,2010,2009,A.1,trunk,12,cm2,,,,T1       | measured_year | 2010 or later
      trial,t,apple,Red,Here,10,2014,A.1,trunk,12,cm2,,,,T1         | planted_year  | between 1800 and 2100
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,12,cm2,0,,,T1      | n_trees       | 1 or more
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,12,cm2,,SE,,T1     | spread_value  | needs its value
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,12,cm2,,,3,T1      | spread_kind   | needs its kind
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,12,cm2,,SE,-1,T1   | spread_value  | above 0
      trial,t,apple,Red,Here,2010,2014,A.1,trunk,12,cm2,,,,         | locator       | the place in the source
      paper,t,apple,Red,Here,2010,2014,A.1,trunk,12,cm2,,,,T1       | source_id     | not known
      trial,t,apple,Red,Here,2010,2014,A.1,rot,12,,,,,T1            | value         | not known
      trial,t,apple,Red,Here,2010,2014,A.1,s-alleles,12,,,,,T1      | trait         | belongs to a variety
      trial,t,apple,Red                                             |               | has 4 fields
      """)
  void aWrongRowIsRefusedByLineColumnAndReason(String row, String column, String because) {
    String good = "trial,t,apple,Red,Here,2010,2014,A.2,trunk,12,cm2,,,,T1\n";
    List<TraitRecord> records =
        read(EvidenceReader.Kind.TRIAL_MEANS, MEANS + good + row.strip() + "\n");
    assertThat(records).hasSize(1);
    assertThat(sink.problems()).isNotEmpty();
    Problem problem = sink.problems().get(0);
    assertThat(problem.file()).isEqualTo("x.csv");
    assertThat(problem.line()).isEqualTo(3);
    assertThat(problem.column()).isEqualTo(column == null ? "" : column);
    assertThat(problem.text()).contains(because);
    assertThat(tally).isEqualTo(new EvidenceReader.Tally("x.csv", 2, 1, 1));
  }

  @Test
  void aStatementIsTakenOnce() {
    String row = "book,apple,A.1,height,,3,4,m,p. 1,,\n";
    assertThat(read(EvidenceReader.Kind.RATINGS, RATINGS + row + row)).hasSize(1);
    assertThat(sink.problems())
        .extracting(Problem::toString)
        .containsExactly("x.csv:3: says the same as x.csv:2");
  }

  @Test
  void lineNumbersCountLinesInsideQuotes() {
    read(
        EvidenceReader.Kind.RATINGS,
        RATINGS
            + "book,apple,A.1,height,,3,4,m,p. 1,\"two\nlines\",\nbook,apple,A.1,height,,3,99,m,p. 1,,\n");
    assertThat(sink.problems()).extracting(Problem::line).containsExactly(4L);
  }

  @Test
  void aMisspeltColumnIsRefusedByName() {
    assertThat(
            read(
                EvidenceReader.Kind.RATINGS,
                RATINGS.replace("locator", "locater") + "book,apple,A.1,height,,3,4,m,p. 1,,\n"))
        .isEmpty();
    assertThat(sink.problems())
        .extracting(Problem::text)
        .containsExactly(
            "column 'locater' is not known; nearest known: locator", "column locator is missing");
  }

  @Test
  void anEmptyFileAndAnOpenQuoteAreProblems() {
    read(EvidenceReader.Kind.RATINGS, "");
    read(EvidenceReader.Kind.RATINGS, RATINGS + "book,apple,\"A.1");
    assertThat(sink.problems()).hasSize(2);
    assertThat(sink.records()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "S3S4'",
    "S101S102",
    "S24?",
    "S6m2S9S26Sa",
    "S4S13'SaSnull",
    "S2S4sm",
    "ScSc",
    "S2S3S20"
  })
  void allelesAsPrinted(String alleles) {
    assertThat(
            read(
                EvidenceReader.Kind.VARIETIES,
                VARIETIES + "book,apple,Red,s-alleles," + alleles + ",,p. 1,\n"))
        .hasSize(1);
  }

  @ParameterizedTest
  @CsvSource({"S", "3S4", "S3 S4", "S3-S4", "Sxx", "S1234", "s1s2"})
  void wordsThatAreNoAlleles(String alleles) {
    assertThat(
            read(
                EvidenceReader.Kind.VARIETIES,
                VARIETIES + "book,apple,Red,s-alleles," + alleles + ",,p. 1,\n"))
        .isEmpty();
    assertThat(sink.problems()).extracting(Problem::column).containsExactly("value");
  }

  @Test
  void whatNobodyLookedUpIsTaggedSo() {
    TraitRecord record =
        read(EvidenceReader.Kind.RATINGS, RATINGS + "memory,apple,A.1,rot,low,,,,recalled,,\n")
            .get(0);
    assertThat(record.method()).isEqualTo(Method.FROM_MEMORY);
  }
}
