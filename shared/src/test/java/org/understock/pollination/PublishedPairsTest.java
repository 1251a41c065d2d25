package org.understock.pollination;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.wording.Words;

/**
 * Verdicts against pollinations and incompatibility groups that were published; the sources stand
 * in the two CSV files.
 */
class PublishedPairsTest {
  private static final Orchard ORCHARD = new Orchard();

  @BeforeAll
  static void plant() throws IOException {
    for (String[] row : rows("/pollination/published-genotypes.csv"))
      ORCHARD.with(Crop.of(row[0]), row[1]).alleles(row[2]);
  }

  @ParameterizedTest(name = "{2} on {1}: {3}")
  @CsvFileSource(resources = "/pollination/published-pairs.csv", numLinesToSkip = 1)
  void verdict_agrees_with_the_published_result(
      String crop,
      String receiver,
      String donor,
      Verdict verdict,
      String published,
      String source) {
    PairVerdict pair =
        Pollination.of(ORCHARD, Crop.of(crop)).verdict(Names.slug(donor), Names.slug(receiver));
    assertThat(pair.verdict()).as("%s (%s)", published, source).isEqualTo(verdict);
    assertThat(pair.basis()).isEqualTo(PairVerdict.Basis.ALLELES);
    assertThat(pair.text(Words.ENGLISH)).contains(receiver).contains(donor);
    assertThat(pair.records())
        .containsExactlyInAnyOrder(
            Names.slug(donor) + "/s-alleles", Names.slug(receiver) + "/s-alleles");
  }

  @Test
  void no_verdict_depends_on_the_order_in_which_varieties_are_entered() {
    for (Crop crop : List.of(Crop.APPLE, Crop.APRICOT, Crop.SWEET_CHERRY)) {
      Pollination one = Pollination.of(ORCHARD, crop);
      Pollination other = Pollination.of(ORCHARD.shuffled(20), crop);
      for (var receiver : ORCHARD.plants().varieties()) {
        if (receiver.crop() != crop) continue;
        for (var donor : ORCHARD.plants().varieties()) {
          assertThat(other.verdict(donor.id(), receiver.id()).toString())
              .isEqualTo(one.verdict(donor.id(), receiver.id()).toString());
        }
        assertThat(other.partners(receiver.id(), 50).stream().map(p -> p.variety().id()).toList())
            .isEqualTo(
                one.partners(receiver.id(), 50).stream().map(p -> p.variety().id()).toList());
      }
    }
  }

  /** Varieties without a mutation: the rule gives one answer for both directions. */
  @Test
  void unmutated_diploids_agree_in_both_directions() throws IOException {
    Pollination cherries = Pollination.of(ORCHARD, Crop.SWEET_CHERRY);
    List<String> plain =
        rows("/pollination/published-genotypes.csv").stream()
            .filter(r -> r[0].equals("sweet-cherry") && !r[2].contains("'"))
            .map(r -> Names.slug(r[1]))
            .toList();
    for (String a : plain) {
      for (String b : plain) {
        if (!a.equals(b))
          assertThat(cherries.verdict(a, b).verdict()).isEqualTo(cherries.verdict(b, a).verdict());
      }
    }
  }

  private static List<String[]> rows(String resource) throws IOException {
    try (var in =
        new BufferedReader(
            new InputStreamReader(
                PublishedPairsTest.class.getResourceAsStream(resource), StandardCharsets.UTF_8))) {
      return in.lines().skip(3).map(line -> line.split(",")).toList();
    }
  }
}
