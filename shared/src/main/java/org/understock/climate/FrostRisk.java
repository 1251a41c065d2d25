package org.understock.climate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.understock.plant.Crop;

/**
 * What frosts around bloom would have done in the years of a series: the night's minimum kills a
 * share of the flowers by stage ({@link CriticalTemperatures}), and over nights and stages the
 * survivals multiply.
 *
 * @param years number of years in which all nights are known
 * @param stages first bloom, full bloom, and the stage after it
 * @param meanShareKilled mean over years of the share killed over all three stages
 * @param shareOfYearsLost share of years in which nine tenths or more are killed
 */
public record FrostRisk(
    int years, List<StageRisk> stages, double meanShareKilled, double shareOfYearsLost) {
  /*
   * How long a stage lasts differs from spring to spring; these are common practice, no source: first flowers open three to six days before full
   * bloom, petals fall from the sixth day on, and the young fruit is as tender for a fortnight more. Stages before first bloom bear more cold and
   * are left out.
   */
  private static final int[][] DAYS_FROM_FULL_BLOOM = {{-6, -3}, {-2, 5}, {6, 20}};

  /**
   * A crop of which so much is killed is lost; a judgement. Fruit trees flower beyond what they
   * carry, so that a tenth may do for a thin crop.
   */
  public static final double LOST = 0.9;

  /**
   * The risk of one stage.
   *
   * @param fromDays days from full bloom to its first night
   * @param toDays days from full bloom to its last night
   * @param chanceTenth share of years with a night that kills a tenth
   * @param chanceNineTenths share of years with a night that kills nine tenths
   * @param meanShareKilled mean over years of the share killed in this stage
   */
  public record StageRisk(
      CriticalTemperatures.Stage stage,
      int fromDays,
      int toDays,
      double chanceTenth,
      double chanceNineTenths,
      double meanShareKilled) {}

  /**
   * Empty for a crop without critical temperatures, or when no year has all nights around bloom.
   */
  public static Optional<FrostRisk> of(
      CriticalTemperatures temperatures, Crop crop, TemperatureSeries series, BloomDays bloom) {
    List<CriticalTemperatures.Stage> stages = around(temperatures.stages(crop));
    if (stages.isEmpty()) return Optional.empty();
    Tally all = new Tally(stages);
    bloom
        .byYear()
        .forEach(
            (year, days) -> {
              Tally one = new Tally(stages);
              for (LocalDate full : days)
                if (!one.add(series, full))
                  return; // a year of which a night is missing tells nothing
              all.join(one, days.size());
            });
    return all.years == 0 ? Optional.empty() : Optional.of(all.risk());
  }

  /**
   * Whether frosts around a day of full bloom take the crop.
   *
   * @param stages from {@link #around}
   * @return 1 when they do, 0 when they don't, NaN when a night is not known
   */
  static double lost(
      List<CriticalTemperatures.Stage> stages, TemperatureSeries series, LocalDate full) {
    Tally one = new Tally(stages);
    return one.add(series, full) ? one.lost : Double.NaN;
  }

  /**
   * First bloom, full bloom and the next; nothing when the table lacks one of them or its second
   * point.
   */
  static List<CriticalTemperatures.Stage> around(List<CriticalTemperatures.Stage> stages) {
    int full = -1;
    for (int k = 0; k < stages.size(); k++)
      if (stages.get(k).name().startsWith("full bloom")) full = k;
    if (full < 1 || full + 1 >= stages.size() || !stages.get(full - 1).name().equals("first bloom"))
      return List.of();
    List<CriticalTemperatures.Stage> three = stages.subList(full - 1, full + 2);
    return three.stream().allMatch(s -> s.kill90C() != null) ? three : List.of();
  }

  /** Sums over the possible bloom days of a year, or over years. */
  private static final class Tally {
    private final List<CriticalTemperatures.Stage> stages;
    private final double[] tenth;
    private final double[] nineTenths;
    private final double[] killed;
    private double killedInAll;
    private double lost;
    private int years;

    Tally(List<CriticalTemperatures.Stage> stages) {
      this.stages = stages;
      tenth = new double[stages.size()];
      nineTenths = new double[stages.size()];
      killed = new double[stages.size()];
    }

    boolean add(TemperatureSeries series, LocalDate full) {
      double surviving = 1;
      for (int s = 0; s < stages.size(); s++) {
        CriticalTemperatures.Stage stage = stages.get(s);
        double lowest = Double.POSITIVE_INFINITY;
        double left = 1;
        for (int d = DAYS_FROM_FULL_BLOOM[s][0]; d <= DAYS_FROM_FULL_BLOOM[s][1]; d++) {
          double night = series.lowest(full.plusDays(d));
          if (Double.isNaN(night)) return false;
          lowest = Math.min(lowest, night);
          left *= 1 - stage.shareKilled(night).orElseThrow();
        }
        if (lowest <= stage.kill10C()) tenth[s]++;
        if (lowest <= java.util.Objects.requireNonNull(stage.kill90C())) nineTenths[s]++;
        killed[s] += 1 - left;
        surviving *= left;
      }
      killedInAll += 1 - surviving;
      if (1 - surviving >= LOST) lost++;
      return true;
    }

    void join(Tally year, int days) {
      years++;
      for (int s = 0; s < stages.size(); s++) {
        tenth[s] += year.tenth[s] / days;
        nineTenths[s] += year.nineTenths[s] / days;
        killed[s] += year.killed[s] / days;
      }
      killedInAll += year.killedInAll / days;
      lost += year.lost / days;
    }

    FrostRisk risk() {
      List<StageRisk> risks = new ArrayList<>();
      for (int s = 0; s < stages.size(); s++) {
        risks.add(
            new StageRisk(
                stages.get(s),
                DAYS_FROM_FULL_BLOOM[s][0],
                DAYS_FROM_FULL_BLOOM[s][1],
                tenth[s] / years,
                nineTenths[s] / years,
                killed[s] / years));
      }
      return new FrostRisk(years, List.copyOf(risks), killedInAll / years, lost / years);
    }
  }
}
