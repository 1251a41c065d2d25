package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.site.Goal;
import org.understock.site.Site;

/**
 * The usual cautions that go with any advice of this kind; they defer to local rules, licensed
 * practice and the local extension service.
 */
final class Notices {
  private Notices() {}

  static List<Advice.Notice> of(Site site, Goal goal, Units units, @Nullable BloomFrosts frosts) {
    List<Advice.Notice> notices = new ArrayList<>();
    notices.add(
        new Advice.Notice(
            "starting-point",
            "This is a starting point for a conversation, drawn from published trials and tables made elsewhere. Ask the local extension service what has stood the test near you."));
    notices.add(
        new Advice.Notice(
            "soil-test",
            "Have the soil tested before you order trees: pH, texture, drainage and, on old orchard ground, nematodes."));
    notices.add(
        new Advice.Notice(
            "plant-health-rules",
            "Moving trees, stocks and budwood is regulated in most places. Buy certified, virus-tested plants and follow the local plant-health and quarantine rules."));
    if (frosts != null) {
      notices.add(
          new Advice.Notice(
              "frost-figures",
              "Frost at bloom was judged by air temperatures that kill nine of ten flowers ("
                  + frosts.citation()
                  + "). On a clear night a hollow, or air near the grass, is degrees colder than a station's screen: measure in the orchard itself."));
    }
    if (!site.pressures().isEmpty() || Boolean.TRUE.equals(site.soil().replant())) {
      notices.add(
          new Advice.Notice(
              "pesticide-labels",
              "Any pesticide or fumigant is used only as its label and local law allow; fumigation is work for a licensed applicator."));
    }
    if (goal.maxHeightM() == null || goal.maxHeightM() > 2.4) {
      notices.add(
          new Advice.Notice(
              "ladders",
              "Trees above about "
                  + (units == Units.METRIC ? "2.4 m" : "8 ft")
                  + " are picked and pruned from a ladder: use a stable orchard ladder on firm ground, and not alone."));
    }
    if (goal.support() == Goal.Support.TRELLIS || goal.support() == Goal.Support.STAKE) {
      notices.add(
          new Advice.Notice(
              "posts-and-wire",
              "Wire under tension and driven posts can injure: wear eye protection, and have large trellises designed for their load."));
    }
    notices.add(
        new Advice.Notice(
            "buried-services",
            "Before you dig or drive posts, have buried cables and pipes located."));
    return List.copyOf(notices);
  }
}
