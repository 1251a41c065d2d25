package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Intervals;
import org.understock.evidence.Subject;

/**
 * An estimate as answers give it. Which of the middle fields are there depends on the kind.
 *
 * @param inheritedFrom the stock whose records were borrowed, because this clone of it has none of
 *     its own
 */
@Schema(
    name = "Estimate",
    description = "What the records about one trait of one subject add up to.")
public record EstimateView(
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Id of a stock or variety.")
        String subject,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String crop,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String trait,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description =
                "ratio: to the crop's reference stock; quantity: positive, pooled on the log scale; "
                    + "interval: pooled on its own scale; levels: a probability for each; names: votes for each; not-comparable: trials exist, but no chain of "
                    + "trials ties them to the reference.",
            allowableValues = {
              "ratio",
              "quantity",
              "interval",
              "levels",
              "names",
              "not-comparable"
            })
        String kind,
    @Schema(description = "The stock that a ratio compares with.") @Nullable String reference,
    @Schema(description = "Unit of a quantity or an interval.") @Nullable String unit,
    @Schema(description = "The middle: a ratio without unit, or a value in the unit.")
        @Nullable Double value,
    @Schema(description = "Standard error of the natural log of the value.")
        @Nullable Double standardErrorLog,
    @Schema(description = "Standard error in the unit, where it is not on the log scale.")
        @Nullable Double standardError,
    @Schema(description = "Lower end of the interval of the mean.") @Nullable Double low,
    @Schema(description = "Upper end of the interval of the mean.") @Nullable Double high,
    @Schema(description = "Lower end of the interval for a new place.")
        @Nullable Double predictionLow,
    @Schema(description = "Upper end of the interval for a new place.")
        @Nullable Double predictionHigh,
    @Schema(description = "Share of cases that each interval is to hold.")
        @Nullable Integer intervalPercent,
    @Schema(description = "Standard deviation between sites of one stock's log mean.")
        @Nullable Double tauLog,
    @Schema(description = "Trials by site and scion in which the stock was met.")
        @Nullable Integer strata,
    @Nullable List<LevelChance> levels,
    @Nullable List<NameVotes> names,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "Number of distinct sources.")
        int sources,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            allowableValues = {"A", "B", "C", "D"})
        String grade,
    @Schema(
            description =
                "The parent stock whose records stand in, because this clone has none of its own.")
        @Nullable String inheritedFrom,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Ids of the records.")
        List<String> records) {

  @Schema(name = "LevelChance")
  public record LevelChance(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String level,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) double probability) {}

  @Schema(name = "NameVotes")
  public record NameVotes(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String name,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) double votes) {}

  public static EstimateView of(Subject subject, String trait, Estimate estimate) {
    Parts parts = new Parts(subject, trait, estimate.support());
    if (estimate instanceof Estimate.Ratio r) {
      Intervals i = Intervals.of(r);
      return parts.measured(
          "ratio", r.reference(), null, i, r.standardErrorLog(), null, r.tauLog(), r.strata());
    }
    if (estimate instanceof Estimate.Quantity q) {
      return parts.measured(
          "quantity",
          null,
          q.unit(),
          Intervals.of(q),
          q.standardErrorLog(),
          null,
          q.betweenLog(),
          null);
    }
    if (estimate instanceof Estimate.Interval v) {
      return parts.measured(
          "interval", null, v.unit(), Intervals.of(v), null, v.standardError(), null, null);
    }
    if (estimate instanceof Estimate.Levels l) {
      List<LevelChance> levels = new ArrayList<>();
      double[] p = l.probabilities();
      for (int k = 0; k < p.length; k++)
        levels.add(new LevelChance(l.levels().get(k), figures(p[k])));
      return parts.worded("levels", null, null, levels, null);
    }
    if (estimate instanceof Estimate.Named n) {
      return parts.worded(
          "names",
          null,
          null,
          null,
          n.votes().entrySet().stream()
              .map(e -> new NameVotes(e.getKey(), figures(e.getValue())))
              .toList());
    }
    Estimate.NotComparable none = (Estimate.NotComparable) estimate;
    return parts.worded("not-comparable", none.reference(), none.strata(), null, null);
  }

  /** Id by which answers name a subject. */
  public static String id(Subject subject) {
    if (subject instanceof Subject.StockIn s) return s.stock();
    if (subject instanceof Subject.OfVariety v) return v.variety();
    throw new IllegalArgumentException("pairings have verdicts, not estimates: " + subject);
  }

  /** Rounded to four significant figures: more would pretend. */
  static double figures(double x) {
    return x == 0 || !Double.isFinite(x)
        ? x
        : new java.math.BigDecimal(x).round(new java.math.MathContext(4)).doubleValue();
  }

  /** What all kinds have in common. */
  private record Parts(Subject subject, String trait, Estimate.Support support) {
    EstimateView measured(
        String kind,
        @Nullable String reference,
        @Nullable String unit,
        Intervals i,
        @Nullable Double errorLog,
        @Nullable Double error,
        @Nullable Double tauLog,
        @Nullable Integer strata) {
      return new EstimateView(
          id(subject),
          subject.crop().id(),
          trait,
          kind,
          reference,
          unit,
          figures(i.value()),
          figuresOrNull(errorLog),
          figuresOrNull(error),
          figures(i.low()),
          figures(i.high()),
          figures(i.predictionLow()),
          figures(i.predictionHigh()),
          Intervals.PERCENT,
          figuresOrNull(tauLog),
          strata,
          null,
          null,
          support.sources(),
          support.grade().name(),
          support.inheritedFrom().orElse(null),
          support.records());
    }

    EstimateView worded(
        String kind,
        @Nullable String reference,
        @Nullable Integer strata,
        @Nullable List<LevelChance> levels,
        @Nullable List<NameVotes> names) {
      return new EstimateView(
          id(subject),
          subject.crop().id(),
          trait,
          kind,
          reference,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          strata,
          levels,
          names,
          support.sources(),
          support.grade().name(),
          support.inheritedFrom().orElse(null),
          support.records());
    }

    private static @Nullable Double figuresOrNull(@Nullable Double x) {
      return x == null ? null : figures(x);
    }
  }
}
