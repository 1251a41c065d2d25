package org.understock.climate;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.trait.Refusal;

/** The coldest nights of a place's complete winters, against what plants bear. */
public final class WinterCold {
  private final double[] nightsC;

  private WinterCold(double[] nightsC) {
    this.nightsC = nightsC;
  }

  /** Empty without a complete winter in which a night is known. */
  public static Optional<WinterCold> of(Winters winters) {
    double[] nights = winters.coldestNightsC();
    return nights.length == 0 ? Optional.empty() : Optional.of(new WinterCold(nights));
  }

  /** Number of winters. */
  public int winters() {
    return nightsC.length;
  }

  /** Mean over winters of the coldest night in °C: what hardiness zones go by. */
  public double meanC() {
    return Arrays.stream(nightsC).average().orElseThrow();
  }

  /** The coldest night of all in °C. */
  public double lowestC() {
    return Arrays.stream(nightsC).min().orElseThrow();
  }

  /** USDA half zone; empty off the scale. */
  public Optional<HardinessZone> zone() {
    try {
      return Optional.of(HardinessZone.ofCelsius(meanC()));
    } catch (Refusal.OutOfRange off) {
      return Optional.empty();
    }
  }

  /**
   * Chance that a plant survives a winter like these, from the temperature that it bears; empty
   * when that is unknown.
   */
  public OptionalDouble chanceSurvives(Estimate.@Nullable Interval limit) {
    return mean(night -> Hardiness.chanceSurvives(night, limit));
  }

  /**
   * Chance that a stock survives a winter like these, from the word for its hardiness; empty when
   * that is unknown.
   */
  public OptionalDouble chanceStockSurvives(Estimate.@Nullable Levels winterCold) {
    return mean(night -> Hardiness.chanceStockSurvives(night, winterCold));
  }

  private OptionalDouble mean(Function<Double, OptionalDouble> chance) {
    double sum = 0;
    for (double night : nightsC) {
      OptionalDouble one = chance.apply(night);
      if (one.isEmpty()) return one;
      sum += one.getAsDouble();
    }
    return OptionalDouble.of(sum / nightsC.length);
  }
}
