package org.understock.service.climate;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.climate.ChillNeed;
import org.understock.climate.ClimateOutlook;
import org.understock.climate.NightRule;
import org.understock.climate.Season;
import org.understock.climate.TemperatureSeries;
import org.understock.climate.ToldBloom;
import org.understock.climate.Winters;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.series.BloomBody;
import org.understock.service.series.SeasonBody;
import org.understock.service.series.TemperatureUnit;
import org.understock.site.Word;
import org.understock.trait.Refusal;

/**
 * What was asked, in the engine's terms. Everything but the series is made first, so that a
 * misspelt variety is told before years of temperatures are worked through.
 */
record Asked(
    Season season,
    NightRule rule,
    TemperatureUnit unit,
    List<Variety> varieties,
    Map<Stock, Subject.StockIn> stocks,
    List<ToldBloom> bloom,
    @Nullable Double warmingC) {

  /**
   * @throws Refusal for what is not known or cannot be meant
   */
  static Asked of(ChillRequest request, TraitBook book) {
    Season season = SeasonBody.of(request.season(), request.latitude(), "season");
    NightRule rule =
        request.nightRule() == null
            ? NightRule.CONTINUOUS
            : Word.of(NightRule.class, "nightRule", request.nightRule());
    TemperatureUnit unit =
        request.units() == null
            ? TemperatureUnit.CELSIUS
            : Word.of(TemperatureUnit.class, "units", request.units());
    Crop crop = request.crop() == null ? null : Crop.of(request.crop());
    List<Variety> varieties = varieties(request, crop, book);
    return new Asked(
        season,
        rule,
        unit,
        varieties,
        stocks(request, crop, varieties, book.plants()),
        bloom(request, crop, varieties, book.plants()),
        request.warmingC());
  }

  private static List<Variety> varieties(
      ChillRequest request, @Nullable Crop crop, TraitBook book) {
    if (request.varieties() == null) {
      return crop == null
          ? List.of()
          : book.plants().varieties().stream()
              .filter(v -> v.crop() == crop && !ChillNeed.of(book, v).isEmpty())
              .toList();
    }
    Set<Variety> found = new LinkedHashSet<>();
    for (int k = 0; k < request.varieties().size(); k++)
      found.add(
          BloomBody.variety(
              "varieties[" + k + "]", request.varieties().get(k), crop, book.plants()));
    return List.copyOf(found);
  }

  private static Map<Stock, Subject.StockIn> stocks(
      ChillRequest request, @Nullable Crop said, List<Variety> varieties, Plants plants) {
    Map<Stock, Subject.StockIn> stocks = new LinkedHashMap<>();
    if (request.stocks() == null || request.stocks().isEmpty()) return stocks;
    Crop crop = said != null ? said : varieties.isEmpty() ? null : varieties.get(0).crop();
    if (crop == null)
      throw new Refusal.Conflict(
          "crop", "crop is not given, and no variety tells it; stocks are rated crop by crop");
    for (int k = 0; k < request.stocks().size(); k++) {
      Stock stock = plants.requireStock("stocks[" + k + "]", request.stocks().get(k));
      stocks.put(stock, new Subject.StockIn(crop, stock.id()));
    }
    return stocks;
  }

  /** Bloom of a variety that was not asked about is kept: others' days may be told from it. */
  private static List<ToldBloom> bloom(
      ChillRequest request, @Nullable Crop said, List<Variety> varieties, Plants plants) {
    Crop crop =
        said != null || varieties.isEmpty()
            ? said
            : varieties.stream().allMatch(v -> v.crop() == varieties.get(0).crop())
                ? varieties.get(0).crop()
                : null;
    return BloomBody.told(
        request.bloom(), "bloom", (field, name) -> BloomBody.variety(field, name, crop, plants));
  }

  /** What the series means for what was asked. */
  Outlooks answer(TraitBook book, TemperatureSeries series) {
    Winters measured = Winters.of(series, season);
    ClimateOutlook now = ClimateOutlook.of(book, measured, measured, varieties, stocks, bloom);
    if (warmingC == null) return new Outlooks(now, null);
    return new Outlooks(
        now,
        ClimateOutlook.of(
            book, measured, Winters.of(series.warmed(warmingC), season), varieties, stocks, bloom));
  }

  /** The place as it was measured and, if asked for, warmed. */
  record Outlooks(ClimateOutlook now, @Nullable ClimateOutlook warmed) {}
}
