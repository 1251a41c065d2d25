package org.understock.climate;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Variety;

/**
 * In which springs of a measured series frost at bloom would have taken the crop, for every variety
 * of one crop. Made for one question and not safe for several threads: what a day of bloom meets is
 * worked out when it is first asked for.
 */
public final class SpringFrosts {
  private final PlaceBloom bloom;
  private final TemperatureSeries series;
  private final List<CriticalTemperatures.Stage> stages;
  private final String citation;
  private final int[] years;

  /** By day of the series: 1 lost, 0 not, NaN a night is unknown; -1 not asked for yet. */
  private final double[] lost;

  private SpringFrosts(
      PlaceBloom bloom,
      TemperatureSeries series,
      List<CriticalTemperatures.Stage> stages,
      String citation) {
    this.bloom = bloom;
    this.series = series;
    this.stages = stages;
    this.citation = citation;
    years = IntStream.rangeClosed(series.start().getYear(), series.end().getYear()).toArray();
    lost = new double[(int) (series.end().toEpochDay() - series.start().toEpochDay()) + 1];
    Arrays.fill(lost, -1);
  }

  /** Whether anything can be said of frost at bloom, and why not. */
  public enum Standing {
    KNOWN,
    /** No critical temperatures of the crop's flowers are published. */
    NO_CRITICAL_TEMPERATURES,
    /** Nothing tells when any variety of the crop blooms at the place. */
    NO_BLOOM,
    /** The series has no year with all nights around bloom. */
    NO_SPRING
  }

  /**
   * @param told what the asker knows of bloom at the place, of varieties of any crop
   */
  public static SpringFrosts of(TraitBook book, Crop crop, Winters measured, List<ToldBloom> told) {
    CriticalTemperatures temperatures = CriticalTemperatures.published();
    List<CriticalTemperatures.Stage> stages = FrostRisk.around(temperatures.stages(crop));
    return new SpringFrosts(
        new PlaceBloom(book, crop, told, measured, measured),
        measured.series(),
        stages,
        stages.isEmpty() ? "" : temperatures.citation(stages.get(0)));
  }

  public Standing standing() {
    if (stages.isEmpty()) return Standing.NO_CRITICAL_TEMPERATURES;
    Optional<ExpectedBloom> usual = bloom.ofUnknown();
    if (usual.isEmpty()) return Standing.NO_BLOOM;
    return springs(usual.get()) == 0 ? Standing.NO_SPRING : Standing.KNOWN;
  }

  /** Author and title behind the critical temperatures. */
  public String citation() {
    return citation;
  }

  /** Years of the series, measured whole or not. */
  public int[] years() {
    return years.clone();
  }

  /** When a variety blooms; empty when nothing tells. */
  public Optional<ExpectedBloom> bloom(Variety variety) {
    return bloom.of(variety);
  }

  /** Bloom of a variety of which nothing tells when it blooms, as wide as the crop's. */
  public ExpectedBloom ofUnknown() {
    return bloom.ofUnknown().orElseThrow();
  }

  /** Number of years in which all nights around the bloom are known. */
  public int springs(ExpectedBloom bloom) {
    return (int) Arrays.stream(lost(bloom, 0, 0)[0]).filter(x -> !Double.isNaN(x)).count();
  }

  /**
   * Chance that the crop is lost in each year, over the days on which the bloom may lie in it, for
   * bloom that is {@code from} to {@code to} days later than thought; days seen are not moved.
   *
   * @return for each such number of days as many chances as {@link #years()}; NaN where a night
   *     around one of the days is not known
   */
  public double[][] lost(ExpectedBloom bloom, int from, int to) {
    double[][] chances = new double[to - from + 1][years.length];
    Map<Integer, List<LocalDate>> days = bloom.days().byYear();
    for (int y = 0; y < years.length; y++) {
      List<LocalDate> possible = days.getOrDefault(years[y], List.of());
      boolean seen = bloom.days().seen(years[y]);
      for (int k = 0; k < chances.length; k++) {
        double sum = 0;
        for (LocalDate day : possible) sum += lost(seen ? day : day.plusDays(from + k));
        chances[k][y] = sum / possible.size(); // no possible day: not a number
      }
    }
    return chances;
  }

  private double lost(LocalDate full) {
    long at = full.toEpochDay() - series.start().toEpochDay();
    if (at < 0 || at >= lost.length) return Double.NaN;
    if (lost[(int) at] == -1) lost[(int) at] = FrostRisk.lost(stages, series, full);
    return lost[(int) at];
  }
}
