package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.understock.plant.Crop;
import org.understock.plant.Stock.Kind;
import org.understock.site.Goal;
import org.understock.site.Site;

/**
 * Laws of the compiled growth on a small book put together here. Sizes and heights are round
 * numbers on a straight line, so that each law can be seen; the published figures are tested on the
 * starter evidence.
 */
class GrowthTest {
  /** Stocks of 20 to 100 % of standard whose log height falls by 2 for one standard tree's size. */
  private static FakeBook book() {
    FakeBook book =
        new FakeBook()
            .stock(Crop.APPLE, "standard-seedling", Kind.CLASS)
            .quantity(Crop.APPLE, "standard-seedling", "mature-height", 9);
    double[] fractions = {0.2, 0.35, 0.5, 0.65, 0.8, 0.95};
    for (double f : fractions) {
      String id = "s-" + Math.round(100 * f);
      book.stock(Crop.APPLE, id, Kind.CLONE)
          .quantity(Crop.APPLE, id, "size-percent-of-standard", 100 * f, 0.05)
          .quantity(Crop.APPLE, id, "mature-height", 9 * Math.exp(2 * (f - 1)), 0.05);
    }
    return book.stock(Crop.APPLE, "sized", Kind.CLONE)
        .quantity(Crop.APPLE, "sized", "size-percent-of-standard", 50, 0.05)
        .stock(Crop.APPLE, "stranger", Kind.CLONE);
  }

  @Test
  void a_stock_with_only_a_size_gets_the_height_of_that_size() {
    StockGrowth sized = Growth.of(book(), Crop.APPLE).stock("sized");
    assertThat(sized.freeHeightM().value().median()).isCloseTo(9 * Math.exp(-1), within(0.3));
    assertThat(sized.freeHeightM().basis()).isEqualTo(Part.Basis.SIZE);
    assertThat(sized.freeHeightM().records()).containsExactly("sized:size-percent-of-standard");
  }

  @Test
  void own_records_draw_a_stock_off_the_line_and_narrow_it() {
    FakeBook book =
        book()
            .stock(Crop.APPLE, "tall", Kind.CLONE)
            .quantity(Crop.APPLE, "tall", "size-percent-of-standard", 50, 0.05)
            .quantity(Crop.APPLE, "tall", "mature-height", 5, 0.05);
    Growth growth = Growth.of(book, Crop.APPLE);
    LogNormal tall = growth.stock("tall").freeHeightM().value();
    LogNormal sized = growth.stock("sized").freeHeightM().value();
    assertThat(tall.median()).isBetween(sized.median(), 5.0);
    assertThat(tall.sigma()).isLessThan(sized.sigma());
    assertThat(growth.stock("tall").freeHeightM().basis()).isEqualTo(Part.Basis.OWN);
  }

  @Test
  void a_stranger_is_wide_and_says_so() {
    Growth growth = Growth.of(book(), Crop.APPLE);
    StockGrowth stranger = growth.stock("stranger");
    assertThat(stranger.thin())
        .extracting(StockGrowth.Thin::trait)
        .contains("size-percent-of-standard", "mature-height", "lifespan");
    assertThat(stranger.freeHeightM().value().sigma())
        .isGreaterThan(2 * growth.stock("s-50").freeHeightM().value().sigma());
    assertThat(growth.stock("not in the catalogue").thin()).isNotEmpty();
  }

  @Test
  void trunk_areas_become_sizes_through_stocks_that_have_both() {
    FakeBook book = book();
    double[] fractions = {0.2, 0.35, 0.5, 0.65, 0.8, 0.95};
    for (double f : fractions)
      book.trunk(
          Crop.APPLE,
          "s-" + Math.round(100 * f),
          Math.pow(f / 0.4, 1 / 0.7)); // size = 0.4 × ratio^0.7
    book.stock(Crop.APPLE, "trunk-only", Kind.CLONE)
        .trunk(Crop.APPLE, "trunk-only", Math.pow(0.5 / 0.4, 1 / 0.7));
    Growth growth = Growth.of(book, Crop.APPLE);
    assertThat(growth.calibration().trunkStocks()).isEqualTo(6);
    assertThat(growth.calibration().trunkSlope())
        .as("six stocks draw the prior slope most of the way to theirs")
        .isBetween(0.62, 0.7);
    assertThat(growth.stock("trunk-only").size().value().median()).isCloseTo(0.5, within(0.02));
    assertThat(growth.stock("trunk-only").size().records()).containsExactly("trunk-only:trunk");
  }

  @Test
  void a_size_is_read_back_from_a_height() {
    FakeBook book =
        book()
            .stock(Crop.APPLE, "height-only", Kind.CLONE)
            .quantity(Crop.APPLE, "height-only", "mature-height", 9 * Math.exp(-0.8), 0.05);
    Part size = Growth.of(book, Crop.APPLE).stock("height-only").size();
    assertThat(size.value().median()).isCloseTo(0.6, within(0.06));
    assertThat(size.basis()).isEqualTo(Part.Basis.SIZE);
  }

  @Test
  void a_crop_without_any_record_answers_wide() {
    Growth quince = Growth.of(book().stock(Crop.QUINCE, "quince-a", Kind.CLONE), Crop.QUINCE);
    StockGrowth stock = quince.stock("quince-a");
    assertThat(stock.thin()).hasSize(7);
    Expectations tree =
        quince.expect(stock, quince.variety("any"), quince.site(Site.UNKNOWN), Goal.UNKNOWN);
    assertThat(tree.heightM().p90() / tree.heightM().p10()).isGreaterThan(3);
  }

  @Test
  void support_without_own_records_is_that_of_like_sizes() {
    FakeBook book =
        book()
            .need(Crop.APPLE, "s-20", 0.1, 0.1, 3)
            .need(Crop.APPLE, "s-35", 0.1, 0.3, 2)
            .need(Crop.APPLE, "s-80", 3, 0.1, 0.1)
            .need(Crop.APPLE, "s-95", 3, 0.1, 0.1)
            .stock(Crop.APPLE, "small", Kind.CLONE)
            .quantity(Crop.APPLE, "small", "size-percent-of-standard", 25);
    Growth growth = Growth.of(book, Crop.APPLE);
    assertThat(growth.stock("small").support().need().likely())
        .isEqualTo(SupportNeed.Level.PERMANENT);
    assertThat(growth.stock("small").support().records()).isEmpty();
    assertThat(growth.stock("s-80").support().need().likely()).isEqualTo(SupportNeed.Level.NONE);
    assertThat(growth.stock("s-80").support().records()).containsExactly("s-80:support");
  }

  @Test
  void vigour_moves_lengths_and_no_word_is_wide() {
    FakeBook book = book();
    for (String v : List.of("weak", "strong", "silent", "spur")) book.variety(Crop.APPLE, v);
    book.vigour(Crop.APPLE, "weak", 0.6, 0.27, 0.25, 0.25)
        .vigour(Crop.APPLE, "strong", 0.25, 0.27, 0.6, 0.27)
        .habit(Crop.APPLE, "spur", "pyramidal, spur");
    Growth growth = Growth.of(book, Crop.APPLE);
    LogNormal weak = growth.variety("weak").lengthFactor();
    LogNormal strong = growth.variety("strong").lengthFactor();
    assertThat(weak.median()).isLessThan(0.93);
    assertThat(strong.median()).isGreaterThan(1.03);
    assertThat(growth.variety("silent").known()).isFalse();
    assertThat(growth.variety("silent").lengthFactor().sigma()).isGreaterThan(weak.sigma());
    assertThat(growth.variety("spur").spur()).isTrue();
    assertThat(growth.variety("spur").lengthFactor().median())
        .isLessThan(growth.variety("silent").lengthFactor().median());
  }

  @Test
  void statements_that_contradict_each_other_leave_the_answer_wider() {
    FakeBook agreeing =
        book()
            .stock(Crop.APPLE, "told", Kind.CLONE)
            .quantity(Crop.APPLE, "told", "size-percent-of-standard", 50, 0.05)
            .quantity(Crop.APPLE, "told", "mature-height", 3.3, 0.05)
            .quantity(Crop.APPLE, "told", "usual-height", 2.8, 0.05);
    FakeBook contradicting =
        book()
            .stock(Crop.APPLE, "told", Kind.CLONE)
            .quantity(Crop.APPLE, "told", "size-percent-of-standard", 50, 0.05)
            .quantity(Crop.APPLE, "told", "mature-height", 8, 0.05)
            .quantity(Crop.APPLE, "told", "usual-height", 2.8, 0.05);
    double agreed = Growth.of(agreeing, Crop.APPLE).stock("told").usualHeightM().value().sigma();
    double contradicted =
        Growth.of(contradicting, Crop.APPLE).stock("told").usualHeightM().value().sigma();
    assertThat(contradicted).isGreaterThan(1.2 * agreed);
  }

  @Test
  void a_stock_met_only_as_strains_has_their_size() {
    FakeBook book =
        book()
            .stock(Crop.APPLE, "parent", Kind.CLONE)
            .strain(Crop.APPLE, "parent-a", "parent")
            .strain(Crop.APPLE, "parent-b", "parent")
            .quantity(Crop.APPLE, "parent-a", "size-percent-of-standard", 40, 0.05)
            .quantity(Crop.APPLE, "parent-b", "size-percent-of-standard", 50, 0.05);
    Part size = Growth.of(book, Crop.APPLE).stock("parent").size();
    assertThat(size.value().median()).isCloseTo(Math.sqrt(0.4 * 0.5), within(1e-6));
    assertThat(size.basis()).isEqualTo(Part.Basis.OWN);
    assertThat(size.records())
        .containsExactly("parent-a:size-percent-of-standard", "parent-b:size-percent-of-standard");
  }

  @Test
  void compiling_all_crops_gives_what_compiling_one_gives() {
    Map<Crop, Growth> all = Growth.all(book());
    assertThat(all.get(Crop.APPLE).stock("sized"))
        .isEqualTo(Growth.of(book(), Crop.APPLE).stock("sized"));
  }

  @Test
  void pruned_trees_are_never_taller_than_free_ones() {
    FakeBook book =
        book()
            .stock(Crop.APPLE, "odd", Kind.CLONE)
            .quantity(Crop.APPLE, "odd", "mature-height", 3)
            .quantity(Crop.APPLE, "odd", "pruned-height", 6);
    StockGrowth odd = Growth.of(book, Crop.APPLE).stock("odd");
    assertThat(odd.lowestHeightM().value().mu())
        .isLessThanOrEqualTo(odd.usualHeightM().value().mu());
    assertThat(odd.usualHeightM().value().mu()).isLessThanOrEqualTo(odd.freeHeightM().value().mu());
  }
}
