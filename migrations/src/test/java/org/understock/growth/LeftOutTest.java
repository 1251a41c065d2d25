package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.plant.Stock;

/**
 * Each stock's published heights, spacings, years, lives and yields are hidden in turn and told
 * from its size and the crop's other stocks. The expected values are the evidence's own rows (each
 * with its source there); the prediction sees none of them.
 */
class LeftOutTest {
  private enum Quantity {
    FREE_HEIGHT(
        "mature-height",
        Set.of("mature-height", "usual-height", "pruned-height"),
        StockGrowth::freeHeightM),
    SPREAD(
        "in-row-spacing",
        Set.of("in-row-spacing", "mature-spread", "pruned-spread"),
        StockGrowth::spreadM),
    FIRST_CROP(
        "years-to-first-crop",
        Set.of("years-to-first-crop", "years-to-full-crop"),
        StockGrowth::firstCropYear),
    LIFE("lifespan", Set.of("lifespan"), StockGrowth::lifeYears),
    YIELD("mature-yield", Set.of("mature-yield"), StockGrowth::matureYieldKg);

    private final String trait;
    private final Set<String> hidden;
    private final Function<StockGrowth, Part> part;

    Quantity(String trait, Set<String> hidden, Function<StockGrowth, Part> part) {
      this.trait = trait;
      this.hidden = hidden;
      this.part = part;
    }
  }

  /**
   * 80 % intervals must hold about 80 % of what is published, and not by being boundless. With 10
   * to 25 left-out stocks a quantity, chance alone moves the share by about 0.1; intervals that are
   * rather wide than narrow are accepted, the other way not.
   */
  @ParameterizedTest
  @EnumSource(Quantity.class)
  void published_values_lie_in_intervals_told_without_them(Quantity quantity) {
    int inside = 0;
    double widths = 0;
    TreeMap<String, String> lines = new TreeMap<>();
    for (Crop crop : Crop.values()) {
      for (Stock stock : StarterGrowth.BOOK.plants().stocks()) {
        if (stock.kind() == Stock.Kind.CLASS
            || stock.kind() == Stock.Kind.OWN_ROOTS
            || !stock.crops().contains(crop)) continue;
        Subject subject = new Subject.StockIn(crop, stock.id());
        if (!(StarterGrowth.BOOK.estimate(subject, quantity.trait).orElse(null)
            instanceof Estimate.Quantity published)) continue;
        if (published.support().inheritedFrom().isPresent()) continue;
        StockGrowth told =
            Growth.of(StarterGrowth.without(subject, quantity.hidden), crop).stock(stock.id());
        if (told.size().basis() != Part.Basis.OWN) continue;
        LogNormal value = quantity.part.apply(told).value();
        boolean in =
            Math.abs(published.logMean() - value.mu())
                <= 1.2816 * Math.hypot(value.sigma(), published.standardErrorLog());
        if (in) inside++;
        widths += value.sigma();
        lines.put(
            crop + " " + stock.id(),
            String.format(
                Locale.ROOT,
                "%.1f told %.1f-%.1f%s",
                Math.exp(published.logMean()),
                value.p10(),
                value.p90(),
                in ? "" : " MISSED"));
      }
    }
    int n = lines.size();
    System.out.printf(
        Locale.ROOT,
        "%s: %d of %d left-out stocks inside the 80 %% interval, mean sd %.2f (log)%n%s%n",
        quantity,
        inside,
        n,
        widths / n,
        lines);
    assertThat(n).isGreaterThanOrEqualTo(6);
    assertThat(inside / (double) n).isGreaterThanOrEqualTo(0.7);
    assertThat(widths / n).as("an interval of this spread still says something").isLessThan(0.7);
  }

  /**
   * The trade's usual heights (common practice, no source) without the rows that state them: still
   * inside the interval.
   */
  @Test
  void usual_heights_of_the_trade_are_met_without_their_rows() {
    record Usual(String stock, double lowM, double highM) {}
    for (Usual usual :
        List.of(
            new Usual("m-27", 1.2, 2.0),
            new Usual("m-7", 2.4, 3.7),
            new Usual("mm-111", 4.6, 6.1),
            new Usual("seedling", 7.5, 9.0))) {
      Subject subject = new Subject.StockIn(Crop.APPLE, usual.stock);
      LogNormal told =
          Growth.of(StarterGrowth.without(subject, Set.of("usual-height")), Crop.APPLE)
              .stock(usual.stock)
              .usualHeightM()
              .value();
      System.out.printf(
          Locale.ROOT,
          "%s usual height %.1f-%.1f, told without that row %.1f, %.1f-%.1f%n",
          usual.stock,
          usual.lowM,
          usual.highM,
          told.median(),
          told.p10(),
          told.p90());
      double middle = Math.sqrt(usual.lowM * usual.highM);
      assertThat(middle).as(usual.stock).isBetween(told.p10(), told.p90());
    }
  }
}
