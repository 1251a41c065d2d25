package org.understock.service.place;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.service.platform.OneOf;
import org.understock.service.series.BloomBody;
import org.understock.service.series.DayBody;
import org.understock.service.series.HourlyBody;
import org.understock.service.series.SeasonBody;
import org.understock.service.series.TemperatureUnit;
import org.understock.site.Site;
import org.understock.site.Soil;

/** The grower's place as it comes over the wire; the ranges are those of the engine's values. */
@Schema(name = "Site", description = "The grower's place.")
public record SiteRequest(
    @Schema(description = "Degrees north.") @DecimalMin("-66") @DecimalMax("66")
        @Nullable Double latitude,
    @Schema(description = "Air temperature of the coldest night of a usual winter.")
        @DecimalMin("-60")
        @DecimalMax("20")
        @Nullable Double coldestNightC,
    @Schema(
            description =
                "Hours from 0 to 7.2 °C in a usual winter; not together with chillPortions.")
        @DecimalMin("0")
        @DecimalMax("4000")
        @Nullable Double chillHours,
    @Schema(description = "Dynamic Model portions in a usual winter; not together with chillHours.")
        @DecimalMin("0")
        @DecimalMax("200")
        @Nullable Double chillPortions,
    @Schema(
            description =
                "Temperatures of the place: chill and coldest nights of each complete winter, in place of the figures that are not told."
                    + " Needs the latitude; `POST /v1/chill` answers about them alone.")
        @Valid
        @Nullable TemperaturesRequest temperatures,
    @Schema(
            description =
                "When varieties bloom at the place. With temperatures that cover spring, `POST /v1/advice` then judges every variety of the crop by"
                    + " frost at bloom: those told by their own days, others by the published days or bloom groups between them.")
        @Size(max = 200)
        @Nullable List<@NotNull @Valid BloomBody> bloom,
    @Schema(description = "Days from the last frost of spring to the first of autumn.")
        @DecimalMin("0")
        @DecimalMax("366")
        @Nullable Double frostFreeDays,
    @Valid @Nullable SoilRequest soil,
    @OneOf(Site.Irrigation.class) @Nullable String irrigation,
    @OneOf(Site.Wind.class) @Nullable String wind,
    @Schema(
            description =
                "Pests and diseases that are present: ids of traits whose levels are resistances.")
        @Size(max = 50)
        @Nullable List<@NotNull @Size(min = 1, max = 100) String> pressures) {

  @Schema(
      name = "SiteTemperatures",
      description = "Temperatures of the place as `daily` or `hourly`.")
  public record TemperaturesRequest(
      @Schema(description = "Daily extremes in order of days; in place of `hourly`.")
          @Nullable List<@Nullable DayBody> daily,
      @Valid @Nullable HourlyBody hourly,
      @Schema(
              description =
                  "Unit of the temperatures that are sent, whatever their fields are called.",
              defaultValue = "celsius")
          @OneOf(TemperatureUnit.class)
          @Nullable String units,
      @Schema(
              description =
                  "From 10-01 to 03-31 in the north and from 04-01 to 09-30 in the south when left out.")
          @Valid
          @Nullable SeasonBody season) {}

  @Schema(name = "Soil")
  public record SoilRequest(
      @Schema(description = "USDA texture class.") @OneOf(Soil.Texture.class)
          @Nullable String texture,
      @Schema(description = "USDA-NRCS natural drainage class.") @OneOf(Soil.Drainage.class)
          @Nullable String drainage,
      @Schema(description = "Rootable depth.") @DecimalMin("10") @DecimalMax("500")
          @Nullable Double depthCm,
      @DecimalMin("3") @DecimalMax("10") @Nullable Double ph,
      @Schema(description = "Electrical conductivity of the saturation extract.")
          @DecimalMin("0")
          @DecimalMax("30")
          @Nullable Double salinityDsPerM,
      @OneOf(Soil.Fertility.class) @Nullable String fertility,
      @Schema(description = "Whether the same kind of tree stood here before.")
          @Nullable Boolean replant) {}
}
