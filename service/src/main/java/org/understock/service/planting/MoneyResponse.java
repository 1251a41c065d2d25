package org.understock.service.planting;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.economics.Spread;
import org.understock.planting.Account;

/** A planting's account as it goes over the wire. */
@Schema(
    name = "PlantingMoney",
    description =
        "What the planting costs and brings by the prices given, each figure as 10th, 50th and 90th percentile. Planting is paid for at the "
            + "beginning (year 0), all else at the end of its year. The percentiles of years are each by itself and do not add up.")
record MoneyResponse(
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "The whole, to be read aloud.")
        String text,
    @Nullable String currency,
    @Schema(requiredMode = RequiredMode.REQUIRED) int horizonYears,
    @Schema(requiredMode = RequiredMode.REQUIRED) double discountPercent,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "What planting costs.")
        double outlay,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Item> outlayItems,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<CashYear> yearly,
    @Schema(requiredMode = RequiredMode.REQUIRED) Payback payback,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Worth today of all payments to the horizon.")
        Sum netPresentValue,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "0 to 1 that the net present value is above 0.")
        double chanceOfGain,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "Equal payment each year that the planting stands, worth as much; by it plantings of different life compare.")
        Sum annuity,
    @Schema(
            description =
                "Absent where no single rate says what the planting yields; a percentile is absent where less comes in than goes out.")
        @Nullable Sum internalRatePercent,
    @Schema(description = "Why there is no internal rate.") @Nullable String noInternalRate,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "Price of good fruit, the same in all years, at which nothing is gained and nothing lost; a percentile is absent where nothing is sold.")
        Sum breakEvenPerKg,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Years in which it stands within the horizon.")
        PlantingPlanResponse.Span standingYears,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Note> assumed,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "Costs that were not given.")
        List<Note> uncounted,
    @Schema(requiredMode = RequiredMode.REQUIRED) String notice) {

  static final String NOTICE =
      "An aid to deciding and no financial advice. Prices and costs are the asker's own and are taken not to change but as given; taxes, loans, "
          + "subsidies, rent and rising prices are not reckoned with. Yields have wide margins: hail, frost and markets can undo any plan. "
          + "Before money is borrowed or spent, talk it over with a farm accountant or the local extension service.";

  @Schema(name = "OutlayItem")
  record Item(
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Trees, metres or hectares.")
          double count,
      @Schema(requiredMode = RequiredMode.REQUIRED) double each,
      @Schema(requiredMode = RequiredMode.REQUIRED) double sum) {}

  @Schema(name = "CashYear")
  record CashYear(
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "0 = the beginning.") int year,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Borne until the trees are grubbed at the end of their life.")
          Sum kg,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "What comes in less what is paid.")
          Sum cash,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "All to the end of the year, not discounted.")
          Sum cumulative) {}

  @Schema(
      name = "Percentiles",
      description = "10th, 50th and 90th percentile; absent where there is none.")
  record Sum(@Nullable Double low, @Nullable Double likely, @Nullable Double high) {
    static Sum of(Spread spread) {
      return new Sum(rounded(spread.low()), rounded(spread.likely()), rounded(spread.high()));
    }
  }

  @Schema(
      name = "Payback",
      description =
          "Year at whose end all that was paid has come in again, not discounted; a percentile beyond the horizon is absent.")
  record Payback(
      @Nullable Integer low,
      @Nullable Integer likely,
      @Nullable Integer high,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "0 to 1 that it pays back within the horizon.")
          double chanceWithinHorizon) {}

  @Schema(name = "MoneyNote")
  record Note(
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "What was not given.")
          String field,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  static MoneyResponse of(Account account) {
    Double discount = account.money().discountPercent();
    return new MoneyResponse(
        account.text(),
        account.money().currency(),
        account.money().horizonYears(),
        discount == null ? 0 : discount,
        sum(account.outlaySum()),
        account.outlay().stream()
            .map(i -> new Item(i.text(), Math.rint(1e4 * i.count()) / 1e4, i.each(), sum(i.sum())))
            .toList(),
        account.years().stream()
            .map(
                y ->
                    new CashYear(
                        y.year(), Sum.of(y.kg()), Sum.of(y.cash()), Sum.of(y.cumulative())))
            .toList(),
        new Payback(
            whole(account.paybackYear().low()),
            whole(account.paybackYear().likely()),
            whole(account.paybackYear().high()),
            chance(account.chancePaidBack())),
        Sum.of(account.netPresentValue()),
        chance(account.chanceOfGain()),
        Sum.of(account.annuity()),
        account.internalRatePercent() == null ? null : Sum.of(account.internalRatePercent()),
        account.noInternalRate(),
        Sum.of(account.breakEvenPerKg()),
        span(account.standingYears()),
        notes(account.assumed()),
        notes(account.uncounted()),
        NOTICE);
  }

  private static List<Note> notes(List<Account.Note> notes) {
    return notes.stream().map(n -> new Note(n.field(), n.text())).toList();
  }

  private static PlantingPlanResponse.Span span(Spread years) {
    return new PlantingPlanResponse.Span(
        year(years.low()), year(years.likely()), year(years.high()));
  }

  private static long year(@Nullable Double year) {
    return year == null ? 0 : Math.round(year);
  }

  private static @Nullable Integer whole(@Nullable Double year) {
    return year == null ? null : Integer.valueOf((int) Math.round(year));
  }

  static double chance(double chance) {
    return Math.round(1000 * chance) / 1000.0;
  }

  private static @Nullable Double rounded(@Nullable Double x) {
    return x == null ? null : Double.valueOf(sum(x));
  }

  /** Whole units from a hundred upward, hundredths below. */
  static double sum(double x) {
    return Math.abs(x) >= 100 ? Math.rint(x) : Math.rint(100 * x) / 100 + 0.0;
  }
}
