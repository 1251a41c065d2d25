package org.understock.advice;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.understock.growth.VarietyGrowth;
import org.understock.plant.Variety;

/**
 * One variety, made ready for scoring.
 *
 * @param advised whether it has evidence enough to be advised unasked
 * @param levels draws of its levels, by trait
 * @param hours its chilling requirement in hours from 0 to 7.2 °C
 * @param portions the same in Dynamic Model portions; neither is made from the other
 * @param pollenEase how little trouble it is for its pollen, 0 to 1
 * @param ripening when it ripens, where the crop has the evidence for it
 * @param track how much is on record of it
 */
record VarietyRow(
    Variety variety,
    VarietyGrowth growth,
    boolean advised,
    Map<String, LevelDraws> levels,
    Hardy hardy,
    Chilling hours,
    Chilling portions,
    double pollenEase,
    @Nullable Ripening ripening,
    TrackRecord track,
    Scores scores) {
  VarietyRow with(Map<String, LevelDraws> levels) {
    return with(levels, hardy, hours, portions);
  }

  VarietyRow with(Hardy hardy) {
    return with(levels, hardy, hours, portions);
  }

  VarietyRow with(Chilling hours, Chilling portions) {
    return with(levels, hardy, hours, portions);
  }

  private VarietyRow with(
      Map<String, LevelDraws> levels, Hardy hardy, Chilling hours, Chilling portions) {
    return new VarietyRow(
        variety,
        growth,
        advised,
        levels,
        hardy,
        hours,
        portions,
        pollenEase,
        ripening,
        track,
        scores);
  }
}
