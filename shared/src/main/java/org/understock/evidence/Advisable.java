package org.understock.evidence;

import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * Which stocks and varieties of a crop have evidence enough to be advised to somebody who did not
 * ask for them. All others stay in the catalogue and are judged when they are named.
 *
 * <p>The rule, a judgement:
 *
 * <ul>
 *   <li>A <b>stock</b> must be something that is planted (a clone, a seedling line or an interstem
 *       tree), must be rated on at least {@value #STOCK_TRAITS} traits of the crop, and at least
 *       {@value #STOCK_VOICES} sources must speak of it; sources of one origin are one voice, and
 *       neither memory nor unpublished common practice is one. Trial means alone do not count as
 *       ratings: numbered selections that were only ever compared in trials, and propagation
 *       variants of one clone, stay in the catalogue.
 *   <li>Where fewer than {@value #FEW_STOCKS} stocks of a crop pass, every planted stock that some
 *       source calls compatible with the crop's varieties at large is added: a thin crop must have
 *       an answer, and the answer says that it is thin.
 *   <li>Of a <b>variety</b> at least {@value #VARIETY_ASPECTS} of these must be known: bloom,
 *       pollination, ripening, vigour or habit, disease, chill, winter hardiness.
 * </ul>
 */
public final class Advisable {
  static final int STOCK_TRAITS = 2;
  static final int STOCK_VOICES = 2;
  static final int FEW_STOCKS = 4;
  static final int VARIETY_ASPECTS = 2;

  private enum Aspect {
    BLOOM,
    POLLINATION,
    RIPENING,
    VIGOUR,
    DISEASE,
    CHILL,
    HARDINESS
  }

  /** Aspects by trait; any other trait of a variety is a disease or a fault of the fruit. */
  private static final Map<String, Aspect> ASPECTS =
      Map.ofEntries(
          Map.entry("bloom-day", Aspect.BLOOM),
          Map.entry("bloom-group", Aspect.BLOOM),
          Map.entry("s-alleles", Aspect.POLLINATION),
          Map.entry("ploidy", Aspect.POLLINATION),
          Map.entry("self-fertile", Aspect.POLLINATION),
          Map.entry("pollen-fertile", Aspect.POLLINATION),
          Map.entry("pollinated-by", Aspect.POLLINATION),
          Map.entry("harvest-season", Aspect.RIPENING),
          Map.entry("harvest-day", Aspect.RIPENING),
          Map.entry("harvest-offset", Aspect.RIPENING),
          Map.entry("vigor", Aspect.VIGOUR),
          Map.entry("growth-habit", Aspect.VIGOUR),
          Map.entry("chill-hours", Aspect.CHILL),
          Map.entry("chill-portions", Aspect.CHILL),
          Map.entry("chill-units", Aspect.CHILL),
          Map.entry("min-winter-temperature", Aspect.HARDINESS));

  private final Set<String> stocks = new TreeSet<>();
  private final Set<String> varieties = new TreeSet<>();

  private Advisable(Evidence evidence, Crop crop) {
    Map<String, Set<String>> rated = new HashMap<>();
    Map<String, Set<String>> voices = new HashMap<>();
    Map<String, Set<Aspect>> known = new HashMap<>();
    Set<String> compatible = new HashSet<>();
    for (TraitRecord record : evidence.records()) {
      if (record.subject().crop() != crop) continue;
      if (record.subject() instanceof Subject.StockIn s) {
        if (evidence.traits().get(record.trait()).scale() != Trait.Scale.CONTRAST) {
          rated.computeIfAbsent(s.stock(), k -> new HashSet<>()).add(record.trait());
        }
        if (published(record))
          voices
              .computeIfAbsent(s.stock(), k -> new HashSet<>())
              .add(Grade.voice(record, evidence.sources()));
      } else if (record.subject() instanceof Subject.OfVariety v) {
        known
            .computeIfAbsent(v.variety(), k -> EnumSet.noneOf(Aspect.class))
            .add(ASPECTS.getOrDefault(record.trait(), Aspect.DISEASE));
      } else if (record.subject() instanceof Subject.Pairing p
          && p.variety() == null
          && record.value().equals(new Value.Level("compatible"))) {
        compatible.add(p.stock());
      }
    }
    for (Stock stock : evidence.plants().stocks()) {
      boolean enough =
          rated.getOrDefault(stock.id(), Set.of()).size() >= STOCK_TRAITS
              && voices.getOrDefault(stock.id(), Set.of()).size() >= STOCK_VOICES;
      if (planted(stock) && enough) stocks.add(stock.id());
    }
    if (stocks.size() < FEW_STOCKS) {
      for (Stock stock : evidence.plants().stocks())
        if (planted(stock) && compatible.contains(stock.id())) stocks.add(stock.id());
    }
    for (Variety variety : evidence.plants().varieties()) {
      if (known.getOrDefault(variety.id(), Set.of()).size() >= VARIETY_ASPECTS)
        varieties.add(variety.id());
    }
  }

  public static Advisable of(Evidence evidence, Crop crop) {
    return new Advisable(evidence, crop);
  }

  /** As the book holds it: a compiled book has worked it out once. */
  public static Advisable of(TraitBook book, Crop crop) {
    return book.advisable(crop);
  }

  /** Whether a stock is advised unasked. */
  public boolean stock(String id) {
    return stocks.contains(id);
  }

  /** Whether a variety is advised unasked. */
  public boolean variety(String id) {
    return varieties.contains(id);
  }

  /** Ids of the stocks advised unasked, in order. */
  public List<String> stocks() {
    return List.copyOf(stocks);
  }

  /** Ids of the varieties advised unasked, in order. */
  public List<String> varieties() {
    return List.copyOf(varieties);
  }

  private static boolean published(TraitRecord record) {
    return record.method() != Method.FROM_MEMORY && record.method() != Method.COMMON_PRACTICE;
  }

  private static boolean planted(Stock stock) {
    return switch (stock.kind()) {
      case CLONE, SEEDLING, INTERSTEM -> true;
      case OWN_ROOTS, CLASS -> false;
    };
  }
}
