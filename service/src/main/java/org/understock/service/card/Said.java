package org.understock.service.card;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import org.understock.advice.Units;
import org.understock.plant.Crop;
import org.understock.service.drawing.TreeFigure;
import org.understock.wording.Words;

/** The card's figures and words, as page, picture and tags say them. */
final class Said {
  private final CardResponse card;
  private final Units units;

  Said(CardResponse card, Units units) {
    this.card = card;
    this.units = units;
  }

  Units units() {
    return units;
  }

  /** The crop, as a line above the names. */
  String crop() {
    return Crop.of(card.crop()).label();
  }

  /** Whether the union has to be spoken of before anything else. */
  boolean warns() {
    return List.of("fails", "needs-interstem", "doubtful").contains(card.union().state());
  }

  boolean fails() {
    return card.union().state().equals("fails");
  }

  /** The warning's heading. */
  String warning() {
    return switch (card.union().state()) {
      case "fails" -> "Not a pairing to plant: the union is reported to fail";
      case "needs-interstem" -> "Only with an interstem between the two";
      default -> "The union is in doubt";
    };
  }

  /** "kept as told" or, where there will be no such tree, that this is for comparison only. */
  String ifItHeld(String heading) {
    return fails() ? heading + ", if the union held" : heading;
  }

  /** The heading of the drawing, which says where the size is not known. */
  String sizeHeading() {
    return card.expectations().sizeKnown()
        ? ifItHeld("Full-grown size")
        : "Size of this stock not on record";
  }

  /** What the drawing shows. */
  String sizeCaption() {
    return card.expectations().sizeKnown()
        ? "Kept by the usual pruning. Solid: the likely tree. Of ten places, in eight it ends between the dotted and"
            + " the dashed line."
        : "How big trees on "
            + card.stock().name()
            + " become is not on record. Drawn is what is usual in the crop: the middle, and the lines between which"
            + " eight of ten trees end.";
  }

  /** "2.9 m (2.4 to 3.5 m)". */
  String lengths(CardResponse.Range m) {
    return units.length(Words.ENGLISH, m.likely())
        + " ("
        + units.lengths(Words.ENGLISH, m.low(), m.high())
        + ")";
  }

  /** "2.4 to 3.5 m". */
  String range(CardResponse.Range m) {
    return units.lengths(Words.ENGLISH, m.low(), m.high());
  }

  /** "year 3 (2 to 4)". */
  String year(CardResponse.Years y) {
    return "year " + y.likely() + range(y);
  }

  /** "30 years (20 to 45)". */
  String years(CardResponse.Years y) {
    return y.likely() + " years" + range(y);
  }

  private static String range(CardResponse.Years y) {
    return y.low() == y.high() ? "" : " (" + y.low() + " to " + y.high() + ")";
  }

  String yield() {
    CardResponse.Range kg = card.expectations().matureYieldKgPerTree();
    return units.masses(Words.ENGLISH, kg.low(), kg.high()) + " a year";
  }

  /** "2.6 m in the row, rows 4.6 m apart". */
  String spacing() {
    return units.length(Words.ENGLISH, card.expectations().inRowSpacingM())
        + " from tree to tree, rows "
        + units.length(Words.ENGLISH, card.expectations().rowSpacingM())
        + " apart";
  }

  String support() {
    String support = card.expectations().support();
    if (support == null) return "not on record; stake it at first";
    return switch (support) {
      case "permanent" -> "a post or trellis for life";
      case "until-established" -> "a stake for the first years";
      default -> "none once rooted";
    };
  }

  String harvest() {
    CardResponse.Harvest harvest = card.fruit().harvest();
    return harvest == null ? "not on record" : harvest.text();
  }

  /**
   * "about 1050 chilling hours; 62 chill portions", each with its range, or that it is not known.
   */
  String chill() {
    if (card.fruit().chill().isEmpty()) return "not on record";
    List<String> needs = new ArrayList<>();
    for (CardResponse.Chill chill : card.fruit().chill())
      needs.add(
          chill.need().likely()
              + " "
              + chill.label()
              + " ("
              + chill.need().low()
              + " to "
              + chill.need().high()
              + ")");
    return String.join("; ", needs);
  }

  String bloom() {
    List<String> words = new ArrayList<>();
    if (card.pollen().bloomGroup() != null) words.add(card.pollen().bloomGroup().replace('-', ' '));
    Double day = card.pollen().fullBloomDay();
    CardResponse.Named reference = card.pollen().bloomReference();
    if (day != null && reference != null && !reference.id().equals(card.variety().id())) {
      long days = Math.round(Math.abs(day));
      words.add(
          days == 0
              ? "with " + reference.name()
              : days
                  + (days == 1 ? " day " : " days ")
                  + (day < 0 ? "before " : "after ")
                  + reference.name());
    }
    return words.isEmpty() ? "not on record" : String.join(", ", words);
  }

  /** "stock -34 °C, variety not on record". */
  String cold() {
    List<String> words = new ArrayList<>();
    for (CardResponse.Cold cold : card.winterCold())
      words.add(
          cold.plant()
              + " "
              + (cold.lowestC() == null
                  ? "not on record"
                  : "to about "
                      + units
                          .temperature(cold.lowestC())
                          .in(Words.ENGLISH)
                          .replace(' ', '\u00a0')));
    return String.join(", ", words);
  }

  /** "fire blight (resistant), wet soil (good)", of soil, weather, pests and diseases. */
  static String ratings(List<CardResponse.Rating> ratings, String plant, int most) {
    List<String> words =
        ratings.stream()
            .filter(r -> r.plant().equals(plant) && !r.kind().equals("root"))
            .map(r -> r.topic() + " (" + r.word() + ")")
            .toList();
    return words.isEmpty() ? "nothing so rated" : some(words, most);
  }

  /** "anchorage good, root suckers few", whichever way they point; empty when none is rated. */
  String roots() {
    List<String> words = new ArrayList<>();
    for (List<CardResponse.Rating> ratings :
        List.of(card.bears(), card.middling(), card.suffersFrom()))
      for (CardResponse.Rating rating : ratings)
        if (rating.kind().equals("root")) words.add(rating.topic() + " " + rating.word());
    return String.join(", ", words);
  }

  /** As many as there is room for, and how many more there are. */
  static String some(List<String> words, int most) {
    if (words.size() <= most) return String.join(", ", words);
    return String.join(", ", words.subList(0, most)) + " and " + (words.size() - most) + " more";
  }

  /**
   * Whether there is a point in naming partners: not where the variety sets with its own pollen.
   */
  boolean namesPartners() {
    return card.pollen().partnerWanted()
        || List.of("partly", "needs-one", "needs-two").contains(card.pollen().need());
  }

  static String pollen(CardResponse.Partner partner) {
    return switch (partner.pollen()) {
      case "full" -> "all works";
      case "partial" -> "part works";
      default -> "not known";
    };
  }

  static String overlap(CardResponse.Partner partner) {
    return switch (partner.bloomOverlap()) {
      case "good" -> "same time";
      case "some" -> "partly";
      case "poor" -> "hardly";
      default -> "not known";
    };
  }

  /** Sentences on what the figures rest on where that is not the stock's own published records. */
  List<String> doubts() {
    List<String> doubts = new ArrayList<>();
    figures(b -> b.basis().equals("size"))
        .ifPresent(
            figures ->
                doubts.add(
                    "Not on record of this stock, taken from its size and the crop's other stocks: "
                        + figures
                        + "."));
    figures(b -> b.basis().equals("crop") && !b.figure().equals("vigour"))
        .ifPresent(
            figures ->
                doubts.add(
                    "Not on record at all, only what is usual in the crop: " + figures + "."));
    figures(b -> b.basis().equals("own") && b.grade().equals("D"))
        .ifPresent(
            figures ->
                doubts.add(
                    "From memory, common practice or growers' observations, without a trial or table: "
                        + figures
                        + "."));
    card.basis().stream()
        .filter(b -> b.figure().equals("vigour"))
        .forEach(b -> doubts.add(b.text()));
    return doubts;
  }

  private java.util.Optional<String> figures(Predicate<CardResponse.Basis> which) {
    List<String> figures =
        card.basis().stream()
            .filter(which)
            .map(b -> b.figure().replace('-', ' ').replace("life", "length of life"))
            .toList();
    return figures.isEmpty()
        ? java.util.Optional.empty()
        : java.util.Optional.of(String.join(", ", figures));
  }

  TreeFigure.Tree tree() {
    CardResponse.Tree tree = card.expectations();
    return new TreeFigure.Tree(
        span(tree.heightM()),
        span(tree.spreadM()),
        tree.sizeKnown(),
        "permanent".equals(tree.support()));
  }

  private static TreeFigure.Span span(CardResponse.Range range) {
    return new TreeFigure.Span(range.low(), range.likely(), range.high());
  }

  /** A citation cut to a line or two. */
  static String shortened(String text, int most) {
    return org.understock.service.drawing.Drawing.shortened(text, most);
  }

  /** Where the card is from, as a foot line. */
  String origin() {
    return "Understock, revision "
        + card.revision()
        + " of the evidence, engine "
        + card.engineVersion();
  }

  static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
