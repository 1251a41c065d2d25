package org.understock.climate;

import java.time.LocalDate;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Variety;
import org.understock.site.Word;

/**
 * When a variety is expected to bloom at a place, and what frost then does.
 *
 * @param basis what the days rest on
 * @param fullBloom middle of the days
 * @param spreadDays standard deviation of the day in a year
 * @param model the fitted model; only for basis chill-then-heat
 * @param frost empty where the crop's critical temperatures are not published, or no year has all
 *     nights around bloom
 * @param text one sentence on how the days were come by
 */
public record BloomOutlook(
    Basis basis,
    MonthDay fullBloom,
    double spreadDays,
    Optional<ChillThenHeat> model,
    Optional<FrostRisk> frost,
    String text) {

  /** What bloom days rest on. */
  public enum Basis implements Word {
    /** Each year's day from the model, with the heat fitted to days seen at the place. */
    CHILL_THEN_HEAT,

    /** The days seen, or the usual day told; the same spread in every other year. */
    TOLD,

    /** Another variety's told day, and the published difference in days between the two. */
    OTHER_VARIETY
  }

  /**
   * @param told what the asker knows of bloom at the place, of this variety or of others
   * @param measured the series as it was measured
   * @param winters the series to answer for: the measured one, or a warmed one
   * @return empty when nothing tells when it blooms
   */
  static Optional<BloomOutlook> of(
      TraitBook book,
      Variety variety,
      List<ToldBloom> told,
      List<ChillNeed> needs,
      Winters measured,
      Winters winters,
      CriticalTemperatures temperatures) {
    Optional<ToldBloom> own =
        told.stream().filter(t -> t.variety().id().equals(variety.id())).findFirst();
    if (own.isEmpty()) return fromOther(book, variety, told, winters, temperatures);
    ToldBloom bloom = own.get();
    for (ChillNeed need : needs) {
      Optional<ChillThenHeat> model =
          ChillThenHeat.fit(measured, winters, need.measure(), need.likely(), bloom.observed());
      if (model.isEmpty() || model.get().bloom().isEmpty()) continue;
      return Optional.of(
          modelled(variety, need, model.get(), bloom, measured == winters, winters, temperatures));
    }
    BloomDays days = BloomDays.usual(winters.series(), bloom.middle(), bloom.spread());
    if (measured == winters) days = days.seen(bloom.observed());
    String warmed =
        measured == winters
            ? ""
            : " Nothing tells how warmth moves it, so it stands where it was: bloom comes earlier in"
                + " truth, and meets more frost than is said here.";
    String text =
        bloom.observed().isEmpty()
            ? "The usual day was told."
            : "Days seen in "
                + bloom.observed().size()
                + " years were taken; other years lie about their middle.";
    return Optional.of(
        new BloomOutlook(
            Basis.TOLD,
            bloom.middle(),
            bloom.spread(),
            Optional.empty(),
            FrostRisk.of(temperatures, variety.crop(), winters.series(), days),
            text + warmed));
  }

  private static BloomOutlook modelled(
      Variety variety,
      ChillNeed need,
      ChillThenHeat model,
      ToldBloom bloom,
      boolean asMeasured,
      Winters winters,
      CriticalTemperatures temperatures) {
    BloomDays days = BloomDays.expected(model.bloom().values(), model.errorDays());
    if (asMeasured) days = days.seen(bloom.observed());
    List<Integer> sorted =
        new ArrayList<>(
            model.bloom().values().stream().map(LocalDate::getDayOfYear).sorted().toList());
    LocalDate middle = LocalDate.ofYearDay(2023, Math.min(365, sorted.get(sorted.size() / 2)));
    String text =
        String.format(
            java.util.Locale.ROOT,
            "Rest ends after %.0f %s, then %.0f growing degree hours lead to full bloom; the heat was"
                + " fitted"
                + " to %d years seen here, each of which is missed by %.1f days when predicted from the others.%s",
            need.likely(),
            need.measure().label(),
            model.heatGdh(),
            model.fittedYears(),
            model.errorDays(),
            model.notReached() == 0
                ? ""
                : " In " + model.notReached() + " years chill or heat do not suffice.");
    return new BloomOutlook(
        Basis.CHILL_THEN_HEAT,
        MonthDay.of(middle.getMonth(), middle.getDayOfMonth()),
        model.errorDays(),
        Optional.of(model),
        FrostRisk.of(temperatures, variety.crop(), winters.series(), days),
        text);
  }

  private static Optional<BloomOutlook> fromOther(
      TraitBook book,
      Variety variety,
      List<ToldBloom> told,
      Winters winters,
      CriticalTemperatures temperatures) {
    Optional<Estimate.Interval> own = offset(book, variety);
    for (ToldBloom other : told) {
      Optional<Estimate.Interval> its = offset(book, other.variety());
      if (other.variety().crop() != variety.crop() || own.isEmpty() || its.isEmpty()) continue;
      double later = own.get().mean() - its.get().mean();
      double spread =
          Math.hypot(
              other.spread(), Math.hypot(own.get().predictionSd(), its.get().standardError()));
      LocalDate middle = other.middle().atYear(2023).plusDays(Math.round(later));
      MonthDay day = MonthDay.of(middle.getMonth(), middle.getDayOfMonth());
      String text =
          String.format(
              java.util.Locale.ROOT,
              "No bloom of its own was told; %s was, and published lists have this one %.0f days %s.",
              other.variety().name(),
              Math.abs(later),
              later < 0 ? "earlier" : "later");
      return Optional.of(
          new BloomOutlook(
              Basis.OTHER_VARIETY,
              day,
              spread,
              Optional.empty(),
              FrostRisk.of(
                  temperatures,
                  variety.crop(),
                  winters.series(),
                  BloomDays.usual(winters.series(), day, spread)),
              text));
    }
    return Optional.empty();
  }

  private static Optional<Estimate.Interval> offset(TraitBook book, Variety variety) {
    return book.estimate(new Subject.OfVariety(variety.crop(), variety.id()), "bloom-day")
        .filter(Estimate.Interval.class::isInstance)
        .map(Estimate.Interval.class::cast);
  }
}
