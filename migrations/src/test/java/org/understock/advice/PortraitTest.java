package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.growth.LogNormal;
import org.understock.growth.Part;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;
import org.understock.wording.Language;

/** What is told of a pairing on the starter evidence. */
class PortraitTest {
  private static Portrait portrait(Crop crop, String stock, String variety) {
    return Starter.ADVISER.portrait(crop, stock, variety, Units.METRIC, Language.ENGLISH);
  }

  private static Portrait.Rating rating(Portrait portrait, Portrait.Plant plant, String trait) {
    return portrait.ratings().stream()
        .filter(r -> r.plant() == plant && r.trait().equals(trait))
        .findFirst()
        .orElseThrow();
  }

  /** Every pairing that the catalogue allows: nothing throws, and what is told hangs together. */
  @ParameterizedTest
  @EnumSource(Crop.class)
  void every_pairing_has_a_portrait_whose_figures_are_in_order(Crop crop) {
    Set<String> sources = new HashSet<>();
    int drawn = 0;
    for (Stock stock : Starter.BOOK.plants().stocks()) {
      if (stock.kind() == Stock.Kind.CLASS || !stock.crops().contains(crop)) continue;
      for (Variety variety : Starter.BOOK.plants().varieties()) {
        if (variety.crop() != crop) continue;
        Portrait portrait = portrait(crop, stock.id(), variety.id());
        String names = portrait.pairing().names();
        for (LogNormal figure :
            List.of(
                portrait.pairing().expectations().heightM(),
                portrait.pairing().expectations().spreadM(),
                portrait.pairing().expectations().firstCropYear(),
                portrait.pairing().expectations().fullCropYear(),
                portrait.pairing().expectations().lifeYears(),
                portrait.pairing().expectations().matureYieldKg())) {
          assertThat(figure.p10()).as(names).isPositive().isLessThanOrEqualTo(figure.median());
          assertThat(figure.p90()).as(names).isFinite().isGreaterThanOrEqualTo(figure.median());
        }
        assertThat(portrait.chill())
            .as(names)
            .allMatch(need -> need.low() <= need.likely() && need.likely() <= need.high());
        assertThat(portrait.union().text()).as(names).isNotBlank();
        assertThat(portrait.ratings())
            .as(names)
            .allMatch(r -> !r.records().isEmpty() && r.sources() > 0);
        for (Portrait.Rating rating : portrait.ratings())
          assertThat(
                  rating.plant() == Portrait.Plant.STOCK
                      && portrait.unrated().contains(rating.topic()))
              .as("%s: %s is both rated and not", names, rating.topic())
              .isFalse();
        portrait.sources().stream().map(Source::id).forEach(sources::add);
        drawn++;
      }
    }
    assertThat(drawn).isPositive();
    assertThat(sources).as("cited for %s", crop).isNotEmpty();
  }

  /**
   * What advice rules out must not look like advice: Israel, 1970s, Beurré Superfin on Quince A.
   */
  @Test
  void a_union_that_fails_is_told_first() {
    Portrait portrait = portrait(Crop.EUROPEAN_PEAR, "Quince A", "Beurre Superfin");
    assertThat(portrait.union().state()).isEqualTo(Portrait.Union.State.FAILS);
    assertThat(portrait.union().state().leads()).isTrue();
    assertThat(portrait.union().text())
        .startsWith("Do not graft")
        .contains("incompatible", "interstem");
    assertThat(portrait.union().records()).isNotEmpty();
  }

  /** Every state says what its name says, over all crops. */
  @Test
  void the_union_is_ruled_out_exactly_where_advice_rules_it_out() {
    Set<Portrait.Union.State> seen = new HashSet<>();
    for (Variety variety : Starter.BOOK.plants().varieties()) {
      for (Stock stock : Starter.BOOK.plants().stocks()) {
        if (stock.kind() == Stock.Kind.CLASS
            || !stock.crops().contains(variety.crop())
            || variety.crop() == Crop.APPLE) continue;
        Portrait portrait = portrait(variety.crop(), stock.id(), variety.id());
        Portrait.Union.State state = portrait.union().state();
        assertThat(state == Portrait.Union.State.FAILS).isEqualTo(portrait.pairing().ruledOut());
        assertThat(portrait.union().records().isEmpty())
            .isEqualTo(state == Portrait.Union.State.NOTHING_AGAINST);
        seen.add(state);
      }
    }
    assertThat(seen).containsExactlyInAnyOrder(Portrait.Union.State.values());
  }

  /**
   * A rating's stand is that of the sources: G.969 and G.41 were released as resistant to fire
   * blight, M.9 and M.26 as susceptible (Geneva release notes and tables restated by extension).
   */
  @Test
  void what_is_borne_is_told_from_what_is_suffered() {
    for (String stock : List.of("g-41", "g-969"))
      assertThat(
              rating(portrait(Crop.APPLE, stock, "fuji"), Portrait.Plant.STOCK, "fire-blight")
                  .stand())
          .as(stock)
          .isEqualTo(Portrait.Rating.Stand.BEARS);
    for (String stock : List.of("m-9", "m-26"))
      assertThat(
              rating(portrait(Crop.APPLE, stock, "fuji"), Portrait.Plant.STOCK, "fire-blight")
                  .stand())
          .as(stock)
          .isEqualTo(Portrait.Rating.Stand.SUFFERS);
  }

  /** Whatever its place in the list, the text names the word that the stand goes by. */
  @Test
  void a_rating_is_read_as_a_sentence() {
    Portrait.Rating rating =
        rating(portrait(Crop.APPLE, "m-9", "gala"), Portrait.Plant.STOCK, "fire-blight");
    assertThat(rating.text())
        .startsWith("M.9 is ")
        .contains(" to fire blight (")
        .endsWith(").")
        .contains(rating.word());
  }

  @Test
  void care_follows_the_stock() {
    List<Portrait.Care.Topic> topics =
        portrait(Crop.APPLE, "m-27", "gala").care().stream().map(Portrait.Care::topic).toList();
    assertThat(topics)
        .startsWith(
            Portrait.Care.Topic.PLANTING,
            Portrait.Care.Topic.SUPPORT,
            Portrait.Care.Topic.WATER,
            Portrait.Care.Topic.PRUNING);
    assertThat(portrait(Crop.APPLE, "m-27", "gala").care().get(1).text())
        .contains("for as long as it stands");
    assertThat(portrait(Crop.APPLE, "seedling", "gala").care().get(1).text())
        .doesNotContain("for as long as it stands");
  }

  /** A tree that was never grafted has no union to keep above the soil. */
  @Test
  void own_roots_have_no_graft_union() {
    Stock own =
        Starter.BOOK.plants().stocks().stream()
            .filter(s -> s.kind() == Stock.Kind.OWN_ROOTS)
            .findFirst()
            .orElseThrow();
    Crop crop = own.crops().iterator().next();
    Variety any =
        Starter.BOOK.plants().varieties().stream()
            .filter(v -> v.crop() == crop)
            .findFirst()
            .orElseThrow();
    assertThat(portrait(crop, own.id(), any.id()).care().get(0).text()).contains("own roots");
  }

  /** What is not known is named, not left out and not guessed. */
  @Test
  void what_is_not_known_is_said() {
    int unknownSizes = 0;
    for (Stock stock : Starter.BOOK.plants().stocks()) {
      if (stock.kind() == Stock.Kind.CLASS || !stock.crops().contains(Crop.APPLE)) continue;
      Portrait portrait = portrait(Crop.APPLE, stock.id(), "fuji");
      for (Portrait.Basis basis : portrait.basis()) {
        if (basis.basis() == Part.Basis.CROP) {
          unknownSizes++;
          assertThat(basis.text()).contains("not on record");
        }
      }
    }
    assertThat(unknownSizes).isPositive();
    Set<String> told =
        Set.of(
            "harvest-season",
            "harvest-day",
            "harvest-offset",
            "chill-hours",
            "chill-portions",
            "chill-units",
            "min-winter-temperature",
            "vigor",
            "growth-habit");
    Variety plain =
        Starter.BOOK.plants().varieties().stream()
            .filter(v -> v.crop() == Crop.APPLE)
            .filter(
                v ->
                    Starter.BOOK.records(new Subject.OfVariety(v.crop(), v.id())).stream()
                        .noneMatch(r -> told.contains(r.trait())))
            .findFirst()
            .orElseThrow();
    Portrait portrait = portrait(Crop.APPLE, "m-9", plain.id());
    assertThat(portrait.harvest()).isNull();
    assertThat(portrait.chill()).isEmpty();
    assertThat(portrait.cold().get(1).lowestC()).isNull();
    assertThat(portrait.cold().get(1).text()).contains("not on record");
    assertThat(portrait.basis()).extracting(Portrait.Basis::figure).contains("vigour");
  }

  @Test
  void units_change_the_texts_alone() {
    Portrait metric = portrait(Crop.APPLE, "m-9", "gala");
    Portrait feet =
        Starter.ADVISER.portrait(Crop.APPLE, "M9", "Gala", Units.US_CUSTOMARY, Language.ENGLISH);
    assertThat(feet.pairing()).isEqualTo(metric.pairing());
    assertThat(text(metric)).contains(" m high").doesNotContain(" ft");
    assertThat(text(feet)).contains(" ft high").doesNotContain(" m high");
  }

  private static String text(Portrait portrait) {
    return portrait.care().stream().map(Portrait.Care::text).toList().toString();
  }

  @Test
  void what_is_no_pairing_is_refused() {
    assertThatThrownBy(() -> portrait(Crop.APPLE, "no-such-stock", "fuji"))
        .isInstanceOf(Refusal.Unknown.class);
    assertThatThrownBy(() -> portrait(Crop.SWEET_CHERRY, "m-9", "bing"))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining(Crop.SWEET_CHERRY.label().toLowerCase(Locale.ROOT).substring(1));
  }
}
