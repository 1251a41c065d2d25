package org.understock.service.series;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import java.time.DateTimeException;
import java.time.MonthDay;
import org.jspecify.annotations.Nullable;
import org.understock.climate.Season;
import org.understock.trait.Refusal;

/** A season as it comes over the wire. */
@Schema(
    name = "Season",
    description = "The part of the year over which chill is counted, both days included.")
public record SeasonBody(
    @Schema(description = "Month and day.")
        @NotNull
        @Pattern(regexp = "\\d\\d-\\d\\d", message = "must be a month and a day, such as 10-01")
        String from,
    @Schema(description = "Month and day; 02-29 stands for the last day of February.")
        @NotNull
        @Pattern(regexp = "\\d\\d-\\d\\d", message = "must be a month and a day, such as 03-31")
        String to) {

  /**
   * The season told, or the usual one of the latitude. @param at where it stands in the body, such
   * as {@code season}
   */
  public static Season of(@Nullable SeasonBody told, double latitude, String at) {
    return told == null
        ? Season.usual(latitude)
        : new Season(monthDay(at + ".from", told.from), monthDay(at + ".to", told.to));
  }

  /**
   * @throws Refusal.Conflict when it is no day of the year
   */
  public static MonthDay monthDay(String field, String text) {
    try {
      return MonthDay.parse("--" + text);
    } catch (DateTimeException none) {
      throw new Refusal.Conflict(
          field, "'" + text + "' is no day of the year; give month and day, such as 10-01");
    }
  }
}
