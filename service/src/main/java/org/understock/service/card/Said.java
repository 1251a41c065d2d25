package org.understock.service.card;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.understock.advice.Units;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.TreeFigure;
import org.understock.wording.Words;

/** The card's figures and words in one language, as page, picture and tags say them. */
final class Said {
  /** Trade words that the page explains, where it uses them. */
  private static final List<String> EXPLAINED = List.of("chill", "suckers", "burr-knots");

  private final CardResponse card;
  private final Units units;
  private final Words words;

  Said(CardResponse card, Units units, Words words) {
    this.card = card;
    this.units = units;
    this.words = words;
  }

  CardResponse card() {
    return card;
  }

  Units units() {
    return units;
  }

  Words words() {
    return words;
  }

  String say(String key, Object... named) {
    return words.say(key, named);
  }

  /** The crop, as a line above the names. */
  String crop() {
    return Words.capital(say("crop." + card.crop()));
  }

  /** Names and crop, as a title. */
  String heading() {
    return say("card.heading", "title", card.title(), "crop", crop());
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
    return say("card.warning", "state", card.union().state());
  }

  /** The heading, or, where there will be no such tree, that this is for comparison only. */
  String ifItHeld(String heading) {
    return fails() ? say("card.if-held", "heading", heading) : heading;
  }

  /** The heading of the drawing, which says where the size is not known. */
  String sizeHeading() {
    boolean known = card.expectations().sizeKnown();
    String heading = say("card.size", "known", known);
    return known ? ifItHeld(heading) : heading;
  }

  /** What the drawing shows. */
  String sizeCaption() {
    return say(
        "card.size.caption",
        "known",
        card.expectations().sizeKnown(),
        "stock",
        card.stock().name());
  }

  /** "2.9 m (2.4 to 3.5 m)". */
  String lengths(CardResponse.Range m) {
    return say("card.length", "likely", units.length(words, m.likely()), "range", range(m));
  }

  /** "2.4 to 3.5 m". */
  String range(CardResponse.Range m) {
    return units.lengths(words, m.low(), m.high());
  }

  /** "year 3 (2 to 4)". */
  String year(CardResponse.Years y) {
    return years("card.year", y);
  }

  /** "30 years (20 to 45)". */
  String years(CardResponse.Years y) {
    return years("card.years", y);
  }

  private String years(String key, CardResponse.Years y) {
    return say(
        key, "likely", y.likely(), "narrow", y.low() == y.high(), "low", y.low(), "high", y.high());
  }

  String yield() {
    CardResponse.Range kg = card.expectations().matureYieldKgPerTree();
    return say("card.yield", "mass", units.masses(words, kg.low(), kg.high()));
  }

  /** "2.6 m from tree to tree, rows 4.6 m apart". */
  String spacing() {
    return say(
        "card.spacing",
        "inRow",
        units.length(words, card.expectations().inRowSpacingM()),
        "row",
        units.length(words, card.expectations().rowSpacingM()));
  }

  String support() {
    String support = card.expectations().support();
    return say("card.support", "support", support == null ? "unknown" : support);
  }

  String harvest() {
    CardResponse.Harvest harvest = card.fruit().harvest();
    return harvest == null ? say("card.none") : harvest.text();
  }

  /** "1050 chilling hours (800 to 1300); 62 chill portions (…)", or that it is not known. */
  String chill() {
    if (card.fruit().chill().isEmpty()) return say("card.none");
    List<String> needs = new ArrayList<>();
    for (CardResponse.Chill chill : card.fruit().chill())
      needs.add(
          say(
              "card.chill",
              "likely",
              chill.need().likely(),
              "measure",
              chill.label(),
              "low",
              chill.need().low(),
              "high",
              chill.need().high()));
    return String.join("; ", needs);
  }

  String bloom() {
    List<String> said = new ArrayList<>();
    if (card.pollen().bloomGroup() != null) said.add(say("season." + card.pollen().bloomGroup()));
    Double day = card.pollen().fullBloomDay();
    CardResponse.Named reference = card.pollen().bloomReference();
    if (day != null && reference != null && !reference.id().equals(card.variety().id()))
      said.add(
          say(
              "card.bloom.day",
              "days",
              Math.round(Math.abs(day)),
              "side",
              day < 0 ? "before" : "after",
              "reference",
              reference.name()));
    return said.isEmpty() ? say("card.none") : String.join(", ", said);
  }

  /** "stock to about -34 °C, variety not on record". */
  String cold() {
    List<String> said = new ArrayList<>();
    for (CardResponse.Cold cold : card.winterCold()) {
      Double lowest = cold.lowestC();
      said.add(
          say(
              "card.cold",
              "plant",
              cold.plant(),
              "known",
              lowest != null,
              "temperature",
              lowest == null ? "" : units.temperature(lowest).in(words).replace(' ', '\u00a0')));
    }
    return String.join(", ", said);
  }

  /** "fire blight (resistant), wet soil (good)", of soil, weather, pests and diseases. */
  String ratings(List<CardResponse.Rating> ratings, String plant, int most) {
    List<String> said =
        ratings.stream()
            .filter(r -> r.plant().equals(plant) && !r.kind().equals("root"))
            .map(r -> say("card.rating", "topic", r.topic(), "word", r.word()))
            .toList();
    return said.isEmpty() ? say("card.rating.none") : some(said, most);
  }

  /** "anchorage good, root suckers few", whichever way they point; empty when none is rated. */
  String roots() {
    List<String> said = new ArrayList<>();
    for (CardResponse.Rating rating : rated())
      if (rating.kind().equals("root"))
        said.add(say("card.rating.root", "topic", rating.topic(), "word", rating.word()));
    return String.join(", ", said);
  }

  private List<CardResponse.Rating> rated() {
    List<CardResponse.Rating> rated = new ArrayList<>(card.bears());
    rated.addAll(card.middling());
    rated.addAll(card.suffersFrom());
    return rated;
  }

  /** As many as there is room for, and how many more there are. */
  String some(List<String> all, int most) {
    if (all.size() <= most) return String.join(", ", all);
    return say(
        "card.some", "listed", String.join(", ", all.subList(0, most)), "count", all.size() - most);
  }

  /**
   * Whether there is a point in naming partners: not where the variety sets with its own pollen.
   */
  boolean namesPartners() {
    return card.pollen().partnerWanted()
        || List.of("partly", "needs-one", "needs-two").contains(card.pollen().need());
  }

  /** "needs a partner, such as Gala, Idared". */
  String partners() {
    List<CardResponse.Partner> partners = card.pollen().partners();
    String need =
        !namesPartners()
            ? "no"
            : partners.isEmpty()
                ? "none"
                : !card.pollen().partnerWanted()
                    ? "helped"
                    : partners.get(0).pollen().equals("unknown") ? "perhaps" : "wanted";
    return say(
        "card.partners.short",
        "need",
        need,
        "names",
        String.join(", ", partners.stream().limit(3).map(p -> p.variety().name()).toList()));
  }

  String pollen(CardResponse.Partner partner) {
    return say("card.partner.pollen", "pollen", partner.pollen());
  }

  String overlap(CardResponse.Partner partner) {
    return say("card.partner.bloom", "overlap", partner.bloomOverlap());
  }

  /** Sentences on what the figures rest on where that is not the stock's own published records. */
  List<String> doubts() {
    List<String> doubts = new ArrayList<>();
    doubt("card.doubt.size", b -> b.basis().equals("size")).ifPresent(doubts::add);
    doubt("card.doubt.crop", b -> b.basis().equals("crop") && !b.figure().equals("vigour"))
        .ifPresent(doubts::add);
    doubt("card.doubt.memory", b -> b.basis().equals("own") && b.grade().equals("D"))
        .ifPresent(doubts::add);
    card.basis().stream()
        .filter(b -> b.figure().equals("vigour"))
        .forEach(b -> doubts.add(b.text()));
    return doubts;
  }

  private Optional<String> doubt(String key, Predicate<CardResponse.Basis> which) {
    List<String> figures =
        card.basis().stream().filter(which).map(b -> say("card.figure." + b.figure())).toList();
    return figures.isEmpty()
        ? Optional.empty()
        : Optional.of(say(key, "figures", String.join(", ", figures)));
  }

  /** The trade's words that stand on this card, each with what it means. */
  String glossary() {
    List<String> used = new ArrayList<>(List.of("stock", "union"));
    if (card.union().state().equals("needs-interstem") || fails()) used.add("interstem");
    for (String word : EXPLAINED)
      if (word.equals("chill")
          ? !card.fruit().chill().isEmpty()
          : rated().stream().anyMatch(r -> r.trait().equals(trait(word)))) used.add(word);
    return say(
        "card.words",
        "words",
        String.join("; ", used.stream().map(word -> say("card.word." + word)).toList()) + ".");
  }

  private static String trait(String word) {
    return word.equals("suckers") ? "suckering" : word;
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
    return Drawing.shortened(text, most);
  }

  /** Where the card is from, as a foot line. */
  String origin() {
    return say("card.origin", "revision", card.revision(), "engine", card.engineVersion());
  }
}
