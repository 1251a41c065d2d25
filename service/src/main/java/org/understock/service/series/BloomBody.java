package org.understock.service.series;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import jakarta.validation.constraints.Size;
import java.time.LocalDate;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.BiFunction;
import org.jspecify.annotations.Nullable;
import org.understock.climate.ToldBloom;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;

/** When a variety blooms at the place, as it comes over the wire. */
@Schema(
    name = "ToldBloom",
    description =
        "When a variety is in full bloom at the place: its usual day, days seen, or both. From days seen in"
            + " three or"
            + " more years that the series covers, and a requirement on record, bloom is modelled by chill, then heat.")
public record BloomBody(
    @NotNull @Size(min = 1, max = 100) String variety,
    @Schema(description = "Month and day of full bloom in a usual year.")
        @Pattern(regexp = "\\d\\d-\\d\\d", message = "must be a month and a day, such as 04-25")
        @Nullable String fullBloom,
    @Schema(description = "Standard deviation of that day from year to year; 7 when left out.")
        @DecimalMin("0")
        @DecimalMax("40")
        @Nullable Double sdDays,
    @Schema(description = "Days of full bloom that were seen, one a year.") @Size(max = 200)
        @Nullable List<@NotNull @Size(min = 1, max = 40) String> observed) {

  /**
   * What was told, in the engine's terms.
   *
   * @param at where the list stands in the body, such as {@code site.bloom}
   * @param varieties finds a variety by the field that names it and the name
   * @throws Refusal for what is not known or cannot be meant
   */
  public static List<ToldBloom> told(
      @Nullable List<BloomBody> given, String at, BiFunction<String, String, Variety> varieties) {
    List<ToldBloom> told = new ArrayList<>();
    if (given == null) return told;
    for (int k = 0; k < given.size(); k++) {
      BloomBody one = given.get(k);
      String field = at + "[" + k + "]";
      Variety variety = varieties.apply(field + ".variety", one.variety());
      if (told.stream().anyMatch(t -> t.variety().equals(variety)))
        throw new Refusal.Conflict(field + ".variety", variety.name() + " comes twice");
      MonthDay usual =
          one.fullBloom() == null
              ? null
              : SeasonBody.monthDay(field + ".fullBloom", one.fullBloom());
      List<LocalDate> observed = observed(field, one.observed());
      if (usual == null && observed.isEmpty())
        throw new Refusal.Conflict(field, "give fullBloom, observed, or both");
      told.add(
          new ToldBloom(
              variety,
              usual,
              Objects.requireNonNullElse(one.sdDays(), ToldBloom.USUAL_SD_DAYS),
              observed));
    }
    return told;
  }

  /** The variety that a name means; of several crops' it must be said which. */
  public static Variety variety(String field, String name, @Nullable Crop crop, Plants plants) {
    if (crop != null) return plants.requireVariety(field, crop, name);
    List<Variety> meant = plants.meantVarieties(name);
    if (meant.isEmpty()) throw new Refusal.Unknown(field, name, plants.nearestVarieties(name));
    if (meant.size() == 1) return meant.get(0);
    throw new Refusal.Conflict(
        field,
        "'"
            + name
            + "' is a variety of "
            + String.join(", ", meant.stream().map(v -> v.crop().id()).toList())
            + "; say the crop");
  }

  private static List<LocalDate> observed(String field, @Nullable List<String> given) {
    List<LocalDate> days = new ArrayList<>();
    if (given == null) return days;
    for (int k = 0; k < given.size(); k++) {
      String at = field + ".observed[" + k + "]";
      LocalDate day = SeriesOf.date(given.get(k));
      if (day == null) throw new Refusal.Conflict(at, "must be a date such as 2015-04-22");
      if (days.stream().anyMatch(d -> d.getYear() == day.getYear()))
        throw new Refusal.Conflict(at, day.getYear() + " comes twice; give one day a year");
      days.add(day);
    }
    return days;
  }
}
