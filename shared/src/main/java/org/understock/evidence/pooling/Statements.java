package org.understock.evidence.pooling;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.understock.evidence.Grade;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * Turns records into what the pools take: statements with a mean and a spread, or voices for a
 * level. Sources of one origin speak once.
 */
final class Statements {
  /*
   * A range in a table is read as a 90 % interval; a single figure has no range. On top each statement has a spread of its own: 10 % for a statement
   * of weight 1 (more by the voice's weight), because tables round to 5 or 10. An open end ("6 m or more") is read as lying a tenth beyond the
   * bound with a spread of a quarter. All of it judgement, except the 90 % (methods of the ordinal pool's sister rule).
   */
  private static final double Z_90_PERCENT = 1.6448536269514722;
  private static final double OWN_SPREAD_LOG = 0.10;
  private static final double BEYOND_LOG = 0.10;
  private static final double BEYOND_SD_LOG = 0.25;

  private Statements() {}

  /** One statement for each voice about one subject. */
  static List<QuantityPool.Statement> of(
      Trait trait, List<TraitRecord> records, Map<String, Source> sources) {
    boolean log = trait.scale() == Trait.Scale.QUANTITY;
    Map<String, List<QuantityPool.Statement>> byVoice = new TreeMap<>();
    for (TraitRecord record : records) {
      byVoice
          .computeIfAbsent(Grade.voice(record, sources), v -> new ArrayList<>())
          .add(log ? logarithmic(record) : plain(trait, record));
    }
    List<QuantityPool.Statement> statements = new ArrayList<>();
    for (List<QuantityPool.Statement> voice : byVoice.values()) statements.add(one(voice));
    return statements;
  }

  /**
   * Several figures of one voice: their mean, with their mean spread widened by what they differ.
   * One voice stays one, however often it speaks.
   */
  private static QuantityPool.Statement one(List<QuantityPool.Statement> voice) {
    double mean = voice.stream().mapToDouble(QuantityPool.Statement::mean).average().orElseThrow();
    double variance =
        voice.stream()
            .mapToDouble(s -> s.sd() * s.sd() + (s.mean() - mean) * (s.mean() - mean))
            .average()
            .orElseThrow();
    return new QuantityPool.Statement(mean, Math.sqrt(variance));
  }

  private static QuantityPool.Statement logarithmic(TraitRecord record) {
    double own = Voices.spread(record.method(), OWN_SPREAD_LOG);
    if (record.value() instanceof Value.Quantity quantity)
      return new QuantityPool.Statement(Math.log(quantity.value()), own);
    Value.Range range = (Value.Range) record.value();
    if (range.low() == null)
      return new QuantityPool.Statement(
          Math.log(Objects.requireNonNull(range.high())) - BEYOND_LOG,
          Math.hypot(own, BEYOND_SD_LOG));
    if (range.high() == null)
      return new QuantityPool.Statement(
          Math.log(range.low()) + BEYOND_LOG, Math.hypot(own, BEYOND_SD_LOG));
    double low = Math.log(range.low());
    double high = Math.log(range.high());
    return new QuantityPool.Statement(
        (low + high) / 2, Math.hypot(own, (high - low) / (2 * Z_90_PERCENT)));
  }

  private static QuantityPool.Statement plain(Trait trait, TraitRecord record) {
    double own = Voices.spread(record.method(), ownSpread(trait));
    if (record.value() instanceof Value.Quantity quantity)
      return new QuantityPool.Statement(quantity.value(), own);
    Value.Range range = (Value.Range) record.value();
    if (range.low() == null)
      return new QuantityPool.Statement(Objects.requireNonNull(range.high()), 2 * own);
    if (range.high() == null) return new QuantityPool.Statement(range.low(), 2 * own);
    return new QuantityPool.Statement(
        (range.low() + range.high()) / 2,
        Math.hypot(own, (range.high() - range.low()) / (2 * Z_90_PERCENT)));
  }

  /**
   * Spread of a single statement on a scale without logarithms: 1.5 °C, 4 days, 8 percentage
   * points, 0.2 pH (judgement).
   */
  private static double ownSpread(Trait trait) {
    return switch (trait.unit()) {
      case "degC" -> 1.5;
      case "%" -> 8;
      case "pH" -> 0.2;
      default -> 4;
    };
  }

  /**
   * Variance between sources where no subject of a trait has two voices: as large as a statement's
   * own.
   */
  static double defaultBetween2(Trait trait) {
    double sd = trait.scale() == Trait.Scale.QUANTITY ? 2 * OWN_SPREAD_LOG : ownSpread(trait);
    return sd * sd;
  }

  /**
   * One voice for each origin; where one origin states several levels its weight is shared among
   * them.
   */
  static List<RatingPool.Voice> voices(
      Trait trait, List<TraitRecord> records, Map<String, Source> sources) {
    Map<String, List<TraitRecord>> byVoice = new TreeMap<>();
    for (TraitRecord record : records)
      byVoice.computeIfAbsent(Grade.voice(record, sources), v -> new ArrayList<>()).add(record);
    List<RatingPool.Voice> voices = new ArrayList<>();
    for (List<TraitRecord> voice : byVoice.values()) {
      double weight =
          voice.stream().mapToDouble(r -> Voices.weight(r.method())).max().orElseThrow();
      for (TraitRecord record : voice) {
        int level = trait.levelIndex(((Value.Level) record.value()).level());
        voices.add(new RatingPool.Voice(level, level, weight / voice.size()));
      }
    }
    return voices;
  }
}
