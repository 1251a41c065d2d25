package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * The usual cautions that go with any advice of this kind; they defer to local rules, licensed
 * practice and the local extension service.
 */
final class Notices {
  /** Height from which a tree is worked from a ladder, m (common practice, no source). */
  private static final double LADDER_FROM_M = 2.4;

  private static final int LADDER_FROM_FT = 8;

  private Notices() {}

  static List<Advice.Notice> of(
      Site site, Goal goal, Units units, @Nullable BloomFrosts frosts, Words words) {
    List<String> codes =
        new ArrayList<>(List.of("starting-point", "soil-test", "plant-health-rules"));
    if (frosts != null) codes.add("frost-figures");
    if (!site.pressures().isEmpty() || Boolean.TRUE.equals(site.soil().replant()))
      codes.add("pesticide-labels");
    if (goal.maxHeightM() == null || goal.maxHeightM() > LADDER_FROM_M) codes.add("ladders");
    if (goal.support() == Goal.Support.TRELLIS || goal.support() == Goal.Support.STAKE)
      codes.add("posts-and-wire");
    codes.add("buried-services");
    Sentence height =
        units == Units.METRIC
            ? Sentence.of("length.metric", "x", LADDER_FROM_M)
            : Sentence.of("length.us-customary", "x", LADDER_FROM_FT);
    String source = frosts == null ? "" : frosts.citation();
    return codes.stream()
        .map(
            code ->
                new Advice.Notice(
                    code, words.say("notice." + code, "height", height, "source", source)))
        .toList();
  }
}
