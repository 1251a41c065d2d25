package org.understock.site;

import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * What the grower wants; every part may be unknown.
 *
 * @param maxHeightM height that the tree must be held at, 0.5 to 20 m
 * @param widthM width of the plot, 0.5 to 5000 m
 * @param lengthM length of the plot, 0.5 to 5000 m
 * @param firstCropWithinYears 1 to 30
 * @param keepForYears 1 to 150
 * @param priorities criterion to weight, 0 (does not matter) to 5; they override those of the
 *     purpose
 */
public record Goal(
    @Nullable Purpose purpose,
    @Nullable Double maxHeightM,
    @Nullable Double widthM,
    @Nullable Double lengthM,
    @Nullable Double firstCropWithinYears,
    @Nullable Double keepForYears,
    @Nullable Care care,
    @Nullable Support support,
    Map<String, Double> priorities) {

  public static final Goal UNKNOWN =
      new Goal(null, null, null, null, null, null, null, null, Map.of());

  public Goal {
    Soil.Range.check("goal.maxHeightM", maxHeightM, 0.5, 20, "m");
    Soil.Range.check("goal.spaceM.width", widthM, 0.5, 5000, "m");
    Soil.Range.check("goal.spaceM.length", lengthM, 0.5, 5000, "m");
    Soil.Range.check("goal.firstCropWithinYears", firstCropWithinYears, 1, 30, "years");
    Soil.Range.check("goal.keepForYears", keepForYears, 1, 150, "years");
    if ((widthM == null) != (lengthM == null))
      throw new Refusal.Conflict(
          "goal.spaceM", "give both width and length of the space, or neither");
    priorities.forEach(
        (criterion, weight) -> Soil.Range.check("goal.priorities." + criterion, weight, 0, 5, ""));
    priorities = java.util.Collections.unmodifiableMap(new TreeMap<>(priorities));
  }

  public enum Purpose implements Word {
    HOME_GARDEN,
    MARKET_ORCHARD,
    LOW_INPUT_ORCHARD,
    TEACHING_GARDEN,
    LONG_LIVED_PLANTING
  }

  public enum Care implements Word {
    CONVENTIONAL,
    LOW_INPUT,
    ORGANIC
  }

  /** What the grower will put up to hold the tree. */
  public enum Support implements Word {
    NONE,
    STAKE,
    TRELLIS
  }
}
