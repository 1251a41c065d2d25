package org.understock.service.card;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A pairing's card as it goes over the wire. */
@Schema(
    name = "PairingCard",
    description =
        "All that is on record of one variety on one stock, whatever the place. It ranks nothing and recommends nothing. Figures are for a"
            + " middling site and the usual pruning; of ten places, eight lie between low and high.")
record CardResponse(
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Revision of the evidence that was asked.")
        long revision,
    @Schema(requiredMode = RequiredMode.REQUIRED) String engineVersion,
    @Schema(requiredMode = RequiredMode.REQUIRED) String crop,
    @Schema(requiredMode = RequiredMode.REQUIRED) Named stock,
    @Schema(requiredMode = RequiredMode.REQUIRED) Named variety,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "Such as \"Fuji on G.969\".")
        String title,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Whether the two grow together. Read it first.")
        Union union,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description =
                "What the tree would be like; where the union fails, what it would be like if it held.")
        Tree expectations,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "What each expected figure rests on.")
        List<Basis> basis,
    @Schema(requiredMode = RequiredMode.REQUIRED) Fruit fruit,
    @Schema(requiredMode = RequiredMode.REQUIRED) Pollen pollen,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "What stock or variety stands up to.")
        List<Rating> bears,
    @Schema(requiredMode = RequiredMode.REQUIRED, description = "What lies in between.")
        List<Rating> middling,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "What stock or variety suffers from.")
        List<Rating> suffersFrom,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Topics on which other stocks of the crop are rated and this one is not.")
        List<String> notRated,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Cold> winterCold,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Care> care,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Caution> cautions,
    @Schema(requiredMode = RequiredMode.REQUIRED) List<Notice> notices,
    @Schema(
            requiredMode = RequiredMode.REQUIRED,
            description = "Those first from which most of it comes.")
        List<CitedSource> sources) {

  @Schema(name = "CardPlant", description = "A stock or a variety.")
  record Named(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name) {}

  @Schema(name = "CardUnion")
  record Union(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "`fails`: advice rules the pairing out. `not-recorded`: the stock failed under other varieties.",
              allowableValues = {
                "holds",
                "nothing-against",
                "not-recorded",
                "doubtful",
                "needs-interstem",
                "fails"
              })
          String state,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(description = "What a source puts between the two.") @Nullable String interstem,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardRange", description = "10th, 50th and 90th percentile.")
  record Range(
      @Schema(requiredMode = RequiredMode.REQUIRED) double low,
      @Schema(requiredMode = RequiredMode.REQUIRED) double likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) double high) {}

  @Schema(name = "CardYears", description = "10th, 50th and 90th percentile, in whole years.")
  record Years(
      @Schema(requiredMode = RequiredMode.REQUIRED) long low,
      @Schema(requiredMode = RequiredMode.REQUIRED) long likely,
      @Schema(requiredMode = RequiredMode.REQUIRED) long high) {}

  @Schema(name = "CardTree")
  record Tree(
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Height as kept.") Range heightM,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Width of the crown as kept.")
          Range spreadM,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Height left to grow.")
          Range freeHeightM,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Season after planting, 1 = the first.")
          Years firstCropYear,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Season after planting, 1 = the first.")
          Years fullCropYear,
      @Schema(requiredMode = RequiredMode.REQUIRED) Years productiveLifeYears,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Crop of a full-grown tree in a year.")
          Range matureYieldKgPerTree,
      @Schema(requiredMode = RequiredMode.REQUIRED) double inRowSpacingM,
      @Schema(requiredMode = RequiredMode.REQUIRED) double rowSpacingM,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "False where the stock's size is not on record, and all that is told here is what is usual in the crop.")
          boolean sizeKnown,
      @Schema(
              description =
                  "Absent where it is neither on record nor to be told from the stock's size.",
              allowableValues = {"none", "until-established", "permanent"})
          @Nullable String support) {}

  @Schema(name = "CardBasis")
  record Basis(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {
                "height",
                "spread",
                "first-crop",
                "full-crop",
                "life",
                "yield",
                "vigour"
              })
          String figure,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "own: records about this stock; size: taken from its size; crop: what is usual in the crop.",
              allowableValues = {"own", "size", "crop"})
          String basis,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"A", "B", "C", "D"})
          String grade,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardFruit")
  record Fruit(
      @Schema(description = "Absent when not on record.") @Nullable Harvest harvest,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "In every measure in which it is published; empty when in none.")
          List<Chill> chill) {}

  @Schema(name = "CardHarvest")
  record Harvest(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "Season among the varieties of the crop, or the part of the month where days were noted, or both.")
          String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardChill")
  record Chill(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"chill-portions", "chill-units", "chill-hours"})
          String measure,
      @Schema(requiredMode = RequiredMode.REQUIRED) Years need,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "What the measure is called in a sentence.")
          String label,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardPollen")
  record Pollen(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"self-fertile", "partly", "needs-one", "needs-two", "unknown"})
          String need,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Whether a planting should hold a partner.")
          boolean partnerWanted,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(
              description = "Absent when not on record.",
              allowableValues = {"early", "early-mid", "mid", "mid-late", "late"})
          @Nullable String bloomGroup,
      @Schema(
              description =
                  "Usual full bloom, in days after that of `bloomReference`; absent when not on record.")
          @Nullable Double fullBloomDay,
      @Nullable Named bloomReference,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "The best first.")
          List<Partner> partners) {}

  @Schema(name = "CardPartner")
  record Partner(
      @Schema(requiredMode = RequiredMode.REQUIRED) Named variety,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "What its pollen does.",
              allowableValues = {"full", "partial", "unknown"})
          String pollen,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"good", "some", "poor", "unknown"})
          String bloomOverlap,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardRating")
  record Rating(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"stock", "variety"})
          String plant,
      @Schema(requiredMode = RequiredMode.REQUIRED) String trait,
      @Schema(requiredMode = RequiredMode.REQUIRED) String topic,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"soil", "root", "weather", "pest"})
          String kind,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "What the sources say.")
          String word,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Number of distinct sources.")
          int sources,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"A", "B", "C", "D"})
          String grade,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardCold")
  record Cold(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"stock", "variety"})
          String plant,
      @Schema(
              description =
                  "Air temperature that is taken to be borne in midwinter; absent when not on record.")
          @Nullable Double lowestC,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardCare")
  record Care(
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              allowableValues = {"planting", "support", "water", "pruning", "suckers"})
          String topic,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Empty where it is common practice.")
          List<String> records) {}

  @Schema(name = "CardCaution")
  record Caution(
      @Schema(requiredMode = RequiredMode.REQUIRED) String code,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = RequiredMode.REQUIRED) List<String> records) {}

  @Schema(name = "CardNotice")
  record Notice(
      @Schema(requiredMode = RequiredMode.REQUIRED) String code,
      @Schema(requiredMode = RequiredMode.REQUIRED) String text) {}

  @Schema(name = "CardSource")
  record CitedSource(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String citation) {}
}
