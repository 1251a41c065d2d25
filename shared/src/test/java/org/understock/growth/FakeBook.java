package org.understock.growth;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Grade;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Traits;

/** A trait book put together by hand: estimates go straight in, no pooling. */
final class FakeBook implements TraitBook {
  private static final List<String> QUANTITIES =
      List.of(
          "size-percent-of-standard",
          "mature-height",
          "usual-height",
          "pruned-height",
          "mature-spread",
          "pruned-spread",
          "in-row-spacing",
          "row-spacing",
          "mature-yield",
          "years-to-first-crop",
          "years-to-full-crop",
          "lifespan");
  private static final List<String> SUPPORT = List.of("none", "until-established", "permanent");
  private static final List<String> PRECOCITY = List.of("slow", "moderate", "early", "very-early");
  private static final List<String> VIGOUR = List.of("weak", "moderate", "strong", "very-strong");

  private final Map<String, Estimate> estimates = new LinkedHashMap<>();
  private final Map<String, Stock> stocks = new LinkedHashMap<>();
  private final Map<String, Variety> varieties = new LinkedHashMap<>();

  FakeBook stock(Crop crop, String id, Stock.Kind kind) {
    stocks.put(id, new Stock(id, id, kind, Set.of(crop), null, List.of()));
    return this;
  }

  FakeBook strain(Crop crop, String id, String parent) {
    stocks.put(id, new Stock(id, id, Stock.Kind.CLONE, Set.of(crop), parent, List.of()));
    return this;
  }

  FakeBook variety(Crop crop, String id) {
    varieties.put(id, new Variety(id, crop, id, List.of()));
    return this;
  }

  /** A quantity known to about a tenth. */
  FakeBook quantity(Crop crop, String stock, String trait, double value) {
    return quantity(crop, stock, trait, value, 0.1);
  }

  FakeBook quantity(Crop crop, String stock, String trait, double value, double standardErrorLog) {
    return quantity(crop, stock, trait, value, standardErrorLog, 0.1);
  }

  FakeBook quantity(
      Crop crop,
      String stock,
      String trait,
      double value,
      double standardErrorLog,
      double betweenLog) {
    return put(
        new Subject.StockIn(crop, stock),
        trait,
        new Estimate.Quantity(
            "", Math.log(value), standardErrorLog, betweenLog, support(stock + ":" + trait)));
  }

  FakeBook trunk(Crop crop, String stock, double ratio) {
    return put(
        new Subject.StockIn(crop, stock),
        "trunk-cross-sectional-area",
        new Estimate.Ratio(
            "reference", Math.log(ratio), 0.05, 0.2, 6, 60, support(stock + ":trunk")));
  }

  FakeBook need(Crop crop, String stock, double... alpha) {
    return put(
        new Subject.StockIn(crop, stock),
        "support-need",
        new Estimate.Levels(SUPPORT, alpha, support(stock + ":support")));
  }

  FakeBook precocity(Crop crop, String stock, double... alpha) {
    return put(
        new Subject.StockIn(crop, stock),
        "precocity",
        new Estimate.Levels(PRECOCITY, alpha, support(stock + ":precocity")));
  }

  FakeBook vigour(Crop crop, String variety, double... alpha) {
    return put(
        new Subject.OfVariety(crop, variety),
        "vigor",
        new Estimate.Levels(VIGOUR, alpha, support(variety + ":vigor")));
  }

  FakeBook habit(Crop crop, String variety, String habit) {
    return put(
        new Subject.OfVariety(crop, variety),
        "growth-habit",
        new Estimate.Named(Map.of(habit, 1.0), support(variety + ":habit")));
  }

  private FakeBook put(Subject subject, String trait, Estimate estimate) {
    estimates.put(subject + " " + trait, estimate);
    return this;
  }

  private static Estimate.Support support(String record) {
    return new Estimate.Support(List.of(record), 1, Grade.C, Optional.empty());
  }

  @Override
  public long revision() {
    return 1;
  }

  @Override
  public Evidence evidence() {
    List<Trait> traits = new ArrayList<>();
    Set<Trait.SubjectKind> stock = Set.of(Trait.SubjectKind.STOCK);
    Set<Trait.SubjectKind> variety = Set.of(Trait.SubjectKind.VARIETY);
    for (String id : QUANTITIES)
      traits.add(new Trait(id, id, id, stock, Trait.Scale.QUANTITY, "", 0, 1000, List.of()));
    traits.add(
        new Trait(
            "trunk-cross-sectional-area",
            "",
            "",
            stock,
            Trait.Scale.CONTRAST,
            "cm2",
            0,
            5000,
            List.of()));
    traits.add(new Trait("support-need", "", "", stock, Trait.Scale.LEVELS, "", 0, 0, SUPPORT));
    traits.add(new Trait("precocity", "", "", stock, Trait.Scale.LEVELS, "", 0, 0, PRECOCITY));
    traits.add(new Trait("vigor", "", "", variety, Trait.Scale.LEVELS, "", 0, 0, VIGOUR));
    traits.add(new Trait("growth-habit", "", "", variety, Trait.Scale.NAMES, "", 0, 0, List.of()));
    return new Evidence(
        new Traits(traits), new Plants(stocks.values(), varieties.values()), Map.of(), List.of());
  }

  @Override
  public Optional<Estimate> estimate(Subject subject, String trait) {
    return Optional.ofNullable(estimates.get(subject + " " + trait));
  }

  @Override
  public List<TraitRecord> records(Subject subject) {
    return List.of();
  }

  @Override
  public Optional<TraitRecord> record(String id) {
    return Optional.empty();
  }
}
