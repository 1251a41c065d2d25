package org.understock.planting;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.economics.Money;
import org.understock.economics.Spread;
import org.understock.growth.LogNormal;
import org.understock.planting.Comparison.Compared;
import org.understock.planting.Comparison.Parting;

/** Tells how plantings part, in sentences to be read aloud. */
final class Telling {
  private Telling() {}

  /** What one planting comes to. */
  static String planting(Compared planting, int years, int all) {
    PlantingPlan plan = planting.plan();
    LogNormal life = planting.pairing().expectations().lifeYears();
    int trees = plan.trees().size();
    StringBuilder text = new StringBuilder(planting.pairing().names()).append(": ");
    text.append(trees)
        .append(trees == 1 ? " tree, " : " trees, ")
        .append(Metres.text(plan.inRowM()))
        .append(" m in the row and ")
        .append(Metres.text(plan.rowM()))
        .append(" m between rows. ");
    text.append(
        planting.withoutCrop() >= Years.MOST
            ? "It likely bears nothing that counts"
            : "The first crop likely comes in year " + (planting.withoutCrop() + 1));
    text.append(", and the trees last about ")
        .append(Math.round(life.median()))
        .append(" years. Over ")
        .append(years == 1 ? "one year" : years + " years")
        .append(" it likely bears ")
        .append(kg(planting.totalKg()))
        .append(". ");
    Account account = planting.account();
    if (account != null) text.append(account.text()).append(' ');
    if (plan.cautions().stream().anyMatch(c -> c.code().equals(PlanCautions.NO_PARTNER)))
      text.append("All this counts on a pollen partner that is not in the plan. ");
    text.append(
        all == 1
            ? "There is nothing to hold it against."
            : "It is the best of these "
                + all
                + " in "
                + Sums.inHundred(planting.chanceBest())
                + ".");
    return text.toString();
  }

  /** How the best and another part. */
  static Parting parting(Compared best, Compared other, double chanceBest) {
    List<Spread> a = best.line();
    List<Spread> b = other.line();
    List<Integer> crossings = new ArrayList<>();
    int lead = 0;
    int firstLead = 0;
    for (int t = 0; t < a.size(); t++) {
      int now = Double.compare(middle(a.get(t)), middle(b.get(t)));
      if (now == 0) continue;
      if (lead == 0) firstLead = now;
      else if (now != lead) crossings.add(t);
      lead = now;
    }
    String bestName = best.pairing().names();
    String otherName = other.pairing().names();
    String leads = best.account() == null ? " has borne more" : " is ahead in money";
    StringBuilder text = new StringBuilder();
    int last = a.size() - 1;
    if (lead == 0) {
      text.append(bestName + " and " + otherName + " run alike");
    } else if (crossings.isEmpty()) {
      text.append((lead > 0 ? bestName : otherName) + leads + " all the way to year " + last);
      text.append(", before " + (lead > 0 ? otherName : bestName));
    } else {
      text.append("Up to year " + (crossings.get(0) - 1) + " ");
      text.append((firstLead > 0 ? bestName : otherName) + leads);
      int side = firstLead;
      for (int year : crossings) {
        side = -side;
        text.append("; from year " + year + " on, " + (side > 0 ? bestName : otherName) + leads);
      }
    }
    text.append(". At the end of year " + last + ", " + bestName);
    text.append(best.account() == null ? " has borne more" : " has brought more");
    text.append(" in all in " + Sums.inHundred(chanceBest) + ".");
    return new Parting(best.rank(), other.rank(), crossings, chanceBest, text.toString());
  }

  /** What the comparison comes to. */
  static String comparison(List<Compared> plantings, List<Parting> partings, int years) {
    Compared best = plantings.get(0);
    if (plantings.size() == 1)
      return "Only "
          + best.pairing().names()
          + " can be planted here, so there is nothing to compare.";
    StringBuilder text = new StringBuilder();
    Account account = best.account();
    if (account == null) {
      text.append("Of ")
          .append(plantings.size())
          .append(" plantings ")
          .append(best.pairing().names())
          .append(" likely bears the most over ")
          .append(years == 1 ? "one year: " : years + " years: ")
          .append(kg(best.totalKg()));
    } else {
      Money money = account.money();
      text.append("Of ")
          .append(plantings.size())
          .append(" plantings ")
          .append(best.pairing().names())
          .append(" likely brings the most for every year that it stands: ")
          .append(Sums.text(middle(account.annuity()), money));
    }
    text.append("; it is the best in ").append(Sums.inHundred(best.chanceBest())).append(". ");
    text.append(partings.get(0).text());
    if (account != null && middle(account.annuity()) <= 0)
      text.append(" None of them likely pays at these prices and costs.");
    return text.toString();
  }

  private static String kg(Spread kg) {
    return Sums.plain(middle(kg))
        + " kg ("
        + Sums.plain(value(kg.low()))
        + " to "
        + Sums.plain(value(kg.high()))
        + ")";
  }

  private static double middle(Spread spread) {
    return value(spread.likely());
  }

  private static double value(@Nullable Double x) {
    return x == null ? 0 : x;
  }
}
