package org.understock.advice;

import java.util.List;
import java.util.Map;
import org.understock.evidence.CompiledTraitBook;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

/** The adviser over the starter evidence, made once for all tests, and the questions they share. */
final class Starter {
  static final CompiledTraitBook BOOK =
      CompiledTraitBook.compile(1, StarterEvidence.read().evidence());
  static final Adviser ADVISER = Adviser.of(BOOK);

  /**
   * A cold, wet, windy, replanted garden with blight and aphids: every kind of criterion takes
   * part.
   */
  static final Site HARD_SITE =
      new Site(
          44.1,
          -26.0,
          1100.0,
          null,
          150.0,
          new Soil(
              Soil.Texture.CLAY_LOAM,
              Soil.Drainage.POORLY_DRAINED,
              70.0,
              6.4,
              0.8,
              Soil.Fertility.MODERATE,
              true),
          Site.Irrigation.NONE,
          Site.Wind.EXPOSED,
          List.of("fire-blight", "woolly-apple-aphid"));

  static final Goal SMALL_GARDEN =
      new Goal(
          Goal.Purpose.HOME_GARDEN,
          3.0,
          6.0,
          10.0,
          4.0,
          30.0,
          Goal.Care.ORGANIC,
          Goal.Support.STAKE,
          Map.of("early-cropping", 4.0, "long-life", 2.0));

  private Starter() {}

  static Advice ask(Crop crop, Site site, Goal goal, Candidates candidates, int limit) {
    return ADVISER.advise(
        new Question(crop, site, goal, candidates, limit, Question.BestPer.PAIRING, Units.METRIC));
  }
}
