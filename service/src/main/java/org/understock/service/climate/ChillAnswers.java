package org.understock.service.climate;

import java.time.MonthDay;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Adviser;
import org.understock.climate.BloomOutlook;
import org.understock.climate.Chill;
import org.understock.climate.ChillMeasure;
import org.understock.climate.ClimateOutlook;
import org.understock.climate.CriticalTemperatures;
import org.understock.climate.FrostRisk;
import org.understock.climate.NightRule;
import org.understock.climate.Trend;
import org.understock.climate.Winter;
import org.understock.climate.WinterCold;
import org.understock.evidence.Estimate;
import org.understock.evidence.TraitBook;
import org.understock.service.reading.Cited;
import org.understock.wording.Words;

/** Writes the engine's outlook down for the wire. */
final class ChillAnswers {
  static final DateTimeFormatter MONTH_DAY = DateTimeFormatter.ofPattern("MM-dd");

  private static final CriticalTemperatures TEMPERATURES = CriticalTemperatures.published();

  private final TraitBook book;
  private final TreeSet<String> cited = new TreeSet<>();

  private final Words words;

  private ChillAnswers(TraitBook book, Words words) {
    this.book = book;
    this.words = words;
  }

  /**
   * @param daily whether the hours were made from daily extremes
   */
  static ChillResponse of(
      Asked asked,
      Asked.Outlooks outlooks,
      TraitBook book,
      boolean daily,
      List<String> notRead,
      Words words) {
    return new ChillAnswers(book, words).write(asked, outlooks, daily, notRead);
  }

  private ChillResponse write(
      Asked asked, Asked.Outlooks outlooks, boolean daily, List<String> notRead) {
    ClimateOutlook now = outlooks.now();
    List<ChillResponse.VarietyAnswer> varieties = varieties(now);
    List<ChillResponse.StockAnswer> stocks = stocks(now);
    ChillResponse.WarmedAnswer warmed =
        outlooks.warmed() == null
            ? null
            : new ChillResponse.WarmedAnswer(
                Objects.requireNonNull(asked.warmingC()),
                safe(outlooks.warmed()),
                cold(outlooks.warmed()),
                varieties(outlooks.warmed()),
                stocks(outlooks.warmed()));
    return new ChillResponse(
        book.revision(),
        Adviser.ENGINE_VERSION,
        new ChillResponse.SeasonAnswer(
            asked.season().from().format(MONTH_DAY), asked.season().to().format(MONTH_DAY)),
        now.winters().all().stream().map(this::winter).toList(),
        now.winters().complete().size(),
        safe(now),
        now.trends().entrySet().stream().map(t -> trend(t.getKey(), t.getValue())).toList(),
        cold(now),
        varieties,
        stocks,
        warmed,
        notes(asked.rule(), daily, now, notRead),
        sources());
  }

  private ChillResponse.WinterAnswer winter(Winter w) {
    String text = w.text().in(words);
    Chill chill = w.chill().orElse(null);
    return new ChillResponse.WinterAnswer(
        w.label(),
        w.standing().id(),
        chill == null ? null : rounded(chill.chillHours()),
        chill == null ? null : rounded(chill.utahUnits()),
        chill == null ? null : rounded(chill.positiveUtahUnits()),
        chill == null ? null : rounded(chill.chillPortions()),
        chill == null ? null : rounded(chill.growingDegreeHours()),
        w.missingHours(),
        w.coldestNightC() == null ? null : rounded(w.coldestNightC()),
        text.isEmpty() ? null : text);
  }

  private static ChillResponse.@Nullable SafeChillAnswer safe(ClimateOutlook outlook) {
    Map<ChillMeasure, Double> safe = outlook.safeChill();
    if (safe.isEmpty()) return null;
    return new ChillResponse.SafeChillAnswer(
        rounded(Objects.requireNonNull(safe.get(ChillMeasure.CHILL_HOURS))),
        rounded(Objects.requireNonNull(safe.get(ChillMeasure.UTAH_UNITS))),
        rounded(Objects.requireNonNull(safe.get(ChillMeasure.CHILL_PORTIONS))));
  }

  private static ChillResponse.TrendAnswer trend(ChillMeasure measure, Trend trend) {
    return new ChillResponse.TrendAnswer(
        measure.id(), rounded(trend.perDecade()), rounded(trend.low()), rounded(trend.high()));
  }

  private static ChillResponse.@Nullable ColdAnswer cold(ClimateOutlook outlook) {
    WinterCold cold = outlook.cold().orElse(null);
    return cold == null
        ? null
        : new ChillResponse.ColdAnswer(
            rounded(cold.meanC()),
            rounded(cold.lowestC()),
            cold.zone().map(z -> z.label()).orElse(null));
  }

  private List<ChillResponse.VarietyAnswer> varieties(ClimateOutlook outlook) {
    List<ChillResponse.VarietyAnswer> answers = new ArrayList<>();
    int winters = outlook.winters().complete().size();
    for (ClimateOutlook.VarietyOutlook one : outlook.varieties()) {
      List<ChillResponse.NeedAnswer> needs = one.needs().stream().map(this::need).toList();
      ClimateOutlook.NeedMet first = one.needs().isEmpty() ? null : one.needs().get(0);
      answers.add(
          new ChillResponse.VarietyAnswer(
              new ChillResponse.Plant(one.variety().id(), one.variety().name()),
              one.variety().crop().id(),
              first == null ? null : chance(first.chanceMet()),
              text(one.variety().name(), first, winters),
              first == null ? List.of() : needs.get(0).records(),
              needs,
              one.cold().map(this::survival).orElse(null),
              one.bloom().map(b -> bloom(b, outlook)).orElse(null)));
    }
    return answers;
  }

  private String text(String name, ClimateOutlook.@Nullable NeedMet need, int winters) {
    if (need == null) return words.say("chill.need.unknown", "variety", name);
    return words.say(
        "chill.need",
        "variety",
        name,
        "need",
        Math.round(need.need().likely()),
        "measure",
        need.need().measure().label(),
        "low",
        Math.round(need.need().low()),
        "high",
        Math.round(need.need().high()),
        "winters",
        need.chanceMet().isEmpty() ? 0 : winters,
        "chance",
        Math.round(100 * need.chanceMet().orElse(0)));
  }

  private ChillResponse.NeedAnswer need(ClimateOutlook.NeedMet met) {
    return new ChillResponse.NeedAnswer(
        met.need().measure().id(),
        rounded(met.need().low()),
        rounded(met.need().likely()),
        rounded(met.need().high()),
        chance(met.chanceMet()),
        cite(met.need().requirement()));
  }

  private ChillResponse.SurvivalAnswer survival(ClimateOutlook.Cold cold) {
    Double limit =
        cold.limit() instanceof Estimate.Interval interval
            ? Double.valueOf(rounded(interval.mean()))
            : null;
    return new ChillResponse.SurvivalAnswer(
        limit, chance(cold.chanceSurvives()), cite(cold.limit()));
  }

  private ChillResponse.BloomAnswer bloom(BloomOutlook bloom, ClimateOutlook outlook) {
    List<ChillResponse.ExpectedBloom> expected =
        bloom
            .model()
            .map(
                model ->
                    model.bloom().entrySet().stream()
                        .map(
                            e ->
                                new ChillResponse.ExpectedBloom(
                                    outlook.winters().season().label(e.getKey()),
                                    e.getValue().toString()))
                        .toList())
            .orElse(null);
    return new ChillResponse.BloomAnswer(
        bloom.basis().id(),
        monthDay(bloom.fullBloom()),
        rounded(bloom.spreadDays()),
        bloom.text().in(words),
        bloom.model().map(m -> rounded(m.heatGdh())).orElse(null),
        expected,
        bloom.frost().map(this::frost).orElse(null));
  }

  private ChillResponse.FrostAnswer frost(FrostRisk risk) {
    return new ChillResponse.FrostAnswer(
        risk.years(),
        rounded(risk.meanShareKilled()),
        rounded(risk.shareOfYearsLost()),
        risk.stages().stream()
            .map(
                s ->
                    new ChillResponse.StageAnswer(
                        words.say("stage." + s.stage().name().replace(' ', '-')),
                        s.fromDays(),
                        s.toDays(),
                        rounded(s.stage().kill10C()),
                        rounded(Objects.requireNonNull(s.stage().kill90C())),
                        rounded(s.chanceTenth()),
                        rounded(s.chanceNineTenths()),
                        rounded(s.meanShareKilled())))
            .toList(),
        TEMPERATURES.citation(risk.stages().get(0).stage()));
  }

  private List<ChillResponse.StockAnswer> stocks(ClimateOutlook outlook) {
    return outlook.stocks().stream()
        .map(
            s ->
                new ChillResponse.StockAnswer(
                    new ChillResponse.Plant(s.stock().id(), s.stock().name()),
                    s.cold().map(this::survival).orElse(null)))
        .toList();
  }

  private List<String> notes(
      NightRule rule, boolean daily, ClimateOutlook outlook, List<String> notRead) {
    List<String> notes = new ArrayList<>();
    notes.add(
        daily ? words.say("chill.note.daily", "rule", rule.id()) : words.say("chill.note.hourly"));
    notes.add(words.say("chill.note.sums"));
    notes.add(words.say("chill.note.measures"));
    int winters = outlook.winters().complete().size();
    if (winters < 10) notes.add(words.say("chill.note.winters", "winters", winters));
    if (!notRead.isEmpty())
      notes.add(words.say("chill.note.columns", "columns", String.join(", ", notRead)));
    return notes;
  }

  private List<ChillResponse.CitedAnswer> sources() {
    TreeSet<String> ids = new TreeSet<>();
    for (String record : cited) book.record(record).ifPresent(r -> ids.add(r.source()));
    List<ChillResponse.CitedAnswer> sources = new ArrayList<>();
    for (String id : ids)
      sources.add(
          new ChillResponse.CitedAnswer(
              id, Cited.of(Objects.requireNonNull(book.evidence().sources().get(id)), words)));
    return sources;
  }

  private List<String> cite(Estimate estimate) {
    cited.addAll(estimate.support().records());
    return estimate.support().records();
  }

  static String monthDay(MonthDay day) {
    return day.format(MONTH_DAY);
  }

  private static @Nullable Double chance(OptionalDouble chance) {
    return chance.isEmpty() ? null : Double.valueOf(rounded(chance.getAsDouble()));
  }

  /** To four decimals, so that figures can be compared with those of other programs. */
  private static double rounded(double x) {
    return Math.round(x * 1e4) / 1e4;
  }
}
