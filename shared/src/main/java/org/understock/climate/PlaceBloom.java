package org.understock.climate;

import java.time.LocalDate;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.wording.Sentence;

/**
 * When the varieties of a crop bloom at a place. Those whose bloom was told there have their own
 * days; others follow one that was told by the published difference between the two, in every year
 * alike. Of several that were told, the one that leaves the least doubt is followed.
 */
final class PlaceBloom {
  /**
   * How far a variety's bloom may lie from another's, where too little is published of the crop to
   * tell: early and late ones of a crop lie two to three weeks apart (from memory).
   */
  private static final double WIDE_SD_DAYS = 7;

  private final BloomOffsets offsets;
  private final Winters measured;
  private final Winters winters;
  private final Map<Variety, ExpectedBloom> told = new LinkedHashMap<>();

  /**
   * @param told what the asker knows of bloom at the place, of varieties of any crop
   * @param measured the series as it was measured
   * @param winters the series to answer for: the measured one, or a warmed one
   */
  PlaceBloom(TraitBook book, Crop crop, List<ToldBloom> told, Winters measured, Winters winters) {
    this.measured = measured;
    this.winters = winters;
    List<ToldBloom> own = told.stream().filter(t -> t.variety().crop() == crop).toList();
    offsets = new BloomOffsets(book, crop);
    for (ToldBloom one : own)
      this.told.put(one.variety(), told(one, ChillNeed.of(book, one.variety())));
  }

  /** Whether bloom of any variety of the crop was told. */
  boolean known() {
    return !told.isEmpty();
  }

  /** Empty when nothing tells when it blooms. */
  Optional<ExpectedBloom> of(Variety variety) {
    ExpectedBloom own = told.get(variety);
    if (own != null) return Optional.of(own);
    return offsets.of(variety).flatMap(this::following);
  }

  /**
   * Bloom of a variety of which nothing was told or published, as wide as the crop's varieties lie
   * apart; empty when no bloom was told at all.
   */
  Optional<ExpectedBloom> ofUnknown() {
    Optional<ExpectedBloom> wide = offsets.ofUnknown().flatMap(this::following);
    return wide.isPresent()
        ? wide
        : told.values().stream().findFirst().map(one -> followed("", one, 0, WIDE_SD_DAYS, null));
  }

  private ExpectedBloom told(ToldBloom bloom, List<ChillNeed> needs) {
    for (ChillNeed need : needs) {
      Optional<ChillThenHeat> model =
          ChillThenHeat.fit(measured, winters, need.measure(), need.likely(), bloom.observed());
      if (model.isPresent() && !model.get().bloom().isEmpty())
        return modelled(need, model.get(), bloom);
    }
    BloomDays days = BloomDays.usual(winters.series(), bloom.middle(), bloom.spread());
    if (measured == winters) days = days.seen(bloom.observed());
    Sentence text =
        Sentence.of("bloom.told", "years", bloom.observed().size(), "warmed", measured != winters);
    return new ExpectedBloom(
        BloomOutlook.Basis.TOLD,
        bloom.middle(),
        bloom.spread(),
        bloom.doubt(),
        Optional.empty(),
        days,
        List.of(),
        text);
  }

  private ExpectedBloom modelled(ChillNeed need, ChillThenHeat model, ToldBloom bloom) {
    BloomDays days = BloomDays.expected(model.bloom().values(), model.errorDays());
    if (measured == winters) days = days.seen(bloom.observed());
    List<Integer> sorted =
        new ArrayList<>(
            model.bloom().values().stream().map(LocalDate::getDayOfYear).sorted().toList());
    LocalDate middle = LocalDate.ofYearDay(2023, Math.min(365, sorted.get(sorted.size() / 2)));
    Sentence text =
        Sentence.of(
            "bloom.modelled",
            "need",
            Math.round(need.likely()),
            "measure",
            need.measure().label(),
            "heat",
            Math.round(model.heatGdh()),
            "years",
            model.fittedYears(),
            "error",
            model.errorDays(),
            "missed",
            model.notReached());
    return new ExpectedBloom(
        BloomOutlook.Basis.CHILL_THEN_HEAT,
        MonthDay.of(middle.getMonth(), middle.getDayOfMonth()),
        model.errorDays(),
        model.errorDays() / Math.sqrt(model.fittedYears()),
        Optional.of(model),
        days,
        need.requirement().support().records(),
        text);
  }

  /** Bloom by the best of those that were told; empty when none of them has an offset. */
  private Optional<ExpectedBloom> following(BloomOffsets.Offset own) {
    ExpectedBloom best = null;
    for (Map.Entry<Variety, ExpectedBloom> other : told.entrySet()) {
      Optional<BloomOffsets.Offset> its = offsets.of(other.getKey());
      if (its.isEmpty()) continue;
      double apart = Math.hypot(own.predictionSd(), its.get().standardError());
      ExpectedBloom one =
          followed(
              other.getKey().name(), other.getValue(), own.days() - its.get().days(), apart, own);
      if (best == null || one.doubtDays() < best.doubtDays()) best = one;
    }
    return Optional.ofNullable(best);
  }

  private static ExpectedBloom followed(
      String name,
      ExpectedBloom other,
      double later,
      double apart,
      BloomOffsets.@Nullable Offset offset) {
    LocalDate middle = other.fullBloom().atYear(2023).plusDays(Math.round(later));
    Sentence text =
        offset == null
            ? Sentence.of("bloom.unknown")
            : Sentence.of(
                "bloom.following",
                "name",
                name,
                "by",
                offset.ofGroup() ? "group" : "list",
                "days",
                Math.round(Math.abs(later)),
                "side",
                later < 0 ? "earlier" : "later");
    return new ExpectedBloom(
        offset != null && offset.ofGroup()
            ? BloomOutlook.Basis.BLOOM_GROUP
            : BloomOutlook.Basis.OTHER_VARIETY,
        MonthDay.of(middle.getMonth(), middle.getDayOfMonth()),
        other.spreadDays(),
        Math.hypot(other.doubtDays(), apart),
        Optional.empty(),
        other.days().later(Math.round(later)),
        offset == null ? List.of() : offset.records(),
        text);
  }
}
