package org.understock.advice;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.wording.Words;

/** What stock and variety bear and suffer from, and when the fruit ripens, for a portrait. */
final class PortraitRatings {
  /**
   * Satisfaction from which a stock or variety is said to bear a thing, and up to which to suffer
   * from it: between the words "fair" and "good", "moderately susceptible" and "moderately
   * resistant". A judgement.
   */
  static final double BEARS = 0.65;

  static final double SUFFERS = 0.41;

  private final Judging judging;
  private final TraitBook book;
  private final Words words;
  private final Pairing pairing;
  private final StockRow stock;
  private final VarietyRow variety;

  PortraitRatings(Judging judging, Pairing pairing, StockRow stock, VarietyRow variety) {
    this.judging = judging;
    this.pairing = pairing;
    this.stock = stock;
    this.variety = variety;
    book = judging.tables.book;
    words = Words.in(judging.question.language());
  }

  /** The firmest first within a stand. */
  List<Portrait.Rating> ratings() {
    List<Portrait.Rating> ratings = new ArrayList<>();
    for (Rated rated : RatedCriteria.ALL)
      for (Rated.Part part : rated.parts())
        rating(Portrait.Plant.STOCK, part.trait(), rated.scale(), ratings);
    rating(Portrait.Plant.STOCK, Hardy.WORD, Satisfaction.SUITABILITY, ratings);
    List<String> ofVariety = new ArrayList<>(CropTables.VARIETY_DISEASES);
    ofVariety.add("fruit-cracking");
    for (String trait : ofVariety)
      rating(Portrait.Plant.VARIETY, trait, Satisfaction.RESISTANCE, ratings);
    ratings.sort(
        Comparator.comparing(Portrait.Rating::stand)
            .thenComparing(Portrait.Rating::grade)
            .thenComparing(rating -> -rating.sources()));
    return ratings;
  }

  private void rating(
      Portrait.Plant plant, String trait, Map<String, Double> scale, List<Portrait.Rating> into) {
    boolean root = plant == Portrait.Plant.STOCK;
    if (!(book.estimate(subject(root), trait).orElse(null) instanceof Estimate.Levels levels))
      return;
    String name = root ? stock.stock().name() : variety.variety().name();
    String id = root ? stock.stock().id() : variety.variety().id();
    into.add(
        new Portrait.Rating(
            plant,
            trait,
            words.say("topic." + trait),
            kind(trait, scale),
            stand(LevelWords.mean(levels, scale)),
            LevelWords.alone(words, "level.", levels),
            levels.support().sources(),
            levels.support().grade(),
            LevelWords.sentence(words, name, id, trait, levels),
            levels.support().records()));
  }

  private Subject subject(boolean root) {
    return root
        ? new Subject.StockIn(pairing.crop(), stock.stock().id())
        : new Subject.OfVariety(pairing.crop(), variety.variety().id());
  }

  private static Portrait.Rating.Stand stand(double met) {
    if (met >= BEARS) return Portrait.Rating.Stand.BEARS;
    return met <= SUFFERS ? Portrait.Rating.Stand.SUFFERS : Portrait.Rating.Stand.MIDDLING;
  }

  private static Portrait.Rating.Kind kind(String trait, Map<String, Double> scale) {
    if (trait.equals(Hardy.WORD) || trait.equals("fruit-cracking"))
      return Portrait.Rating.Kind.WEATHER;
    if (scale == Satisfaction.FEWNESS || trait.equals("anchorage"))
      return Portrait.Rating.Kind.ROOT;
    return scale == Satisfaction.RESISTANCE ? Portrait.Rating.Kind.PEST : Portrait.Rating.Kind.SOIL;
  }

  /** Topics on which other stocks of the crop are rated and this one is not. */
  List<String> unrated() {
    List<String> topics = new ArrayList<>();
    for (Rated rated : RatedCriteria.ALL) {
      for (Rated.Part part : rated.parts()) {
        LevelDraws draws = stock.levels().get(part.trait());
        if (judging.tables.stockTraits.containsKey(part.trait()) && draws != null && !draws.known())
          topics.add(words.say("topic." + part.trait()));
      }
    }
    return topics;
  }

  Portrait.Cold cold(Portrait.Plant plant) {
    boolean root = plant == Portrait.Plant.STOCK;
    Hardy hardy = root ? stock.hardy() : variety.hardy();
    return new Portrait.Cold(
        plant,
        hardy.known() ? (double) Math.round(hardy.meanC()) : null,
        words.say(
            "portrait.cold",
            "known",
            hardy.known(),
            "name",
            root ? stock.stock().name() : variety.variety().name(),
            "temperature",
            judging.question.units().temperature(hardy.meanC())),
        hardy.records());
  }

  /** The season in words, the part of the month where days were noted, or both. */
  Portrait.@Nullable Harvest harvest() {
    Set<String> records = new LinkedHashSet<>();
    String season = null;
    String noted = null;
    if (book.estimate(subject(false), "harvest-season").orElse(null)
        instanceof Estimate.Levels levels) {
      season =
          words.say(
              "portrait.harvest",
              "season",
              LevelWords.alone(words, "season.", levels),
              "crop",
              words.say("crop." + pairing.crop().id()));
      records.addAll(levels.support().records());
    }
    if (book.estimate(subject(false), "harvest-day").orElse(null)
        instanceof Estimate.Interval day) {
      noted = noted(day.mean());
      records.addAll(day.support().records());
    }
    if (season == null && noted == null) return null;
    String text =
        noted == null
            ? season
            : season == null
                ? noted
                : words.say("portrait.harvest.both", "season", season, "noted", noted);
    return new Portrait.Harvest(java.util.Objects.requireNonNull(text), List.copyOf(records));
  }

  /** "about mid July where it was noted" for a day of the year. */
  private String noted(double dayOfYear) {
    LocalDate day =
        LocalDate.ofYearDay(2023, (int) Math.min(365, Math.max(1, Math.round(dayOfYear))));
    String part = day.getDayOfMonth() <= 10 ? "early" : day.getDayOfMonth() <= 20 ? "mid" : "late";
    return words.say("portrait.harvest.noted", "part", part, "month", words.month(day.getMonth()));
  }
}
