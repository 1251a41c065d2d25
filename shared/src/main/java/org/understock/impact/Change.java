package org.understock.impact;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.understock.evidence.Evidence;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * A change of the evidence that somebody thinks of making.
 *
 * @param added records that would count
 * @param removed ids of records that would count no longer
 */
public record Change(List<TraitRecord> added, Set<String> removed) {
  public Change {
    added = List.copyOf(added);
    removed = Set.copyOf(removed);
  }

  /**
   * The evidence as it would be. With the records comes what they speak of, if it is not there yet:
   * their sources with those that they restate, their stocks with the stocks they are clones of,
   * their varieties; and a stock that is spoken of in another crop than before belongs to that crop
   * too.
   *
   * @param evidence what counts now
   * @param catalogue where to take sources, stocks and varieties from that do not count yet
   */
  public Evidence appliedTo(Evidence evidence, Evidence catalogue) {
    Map<String, Source> sources = new HashMap<>(evidence.sources());
    Map<String, Stock> stocks = new LinkedHashMap<>();
    for (Stock stock : evidence.plants().stocks()) stocks.put(stock.id(), stock);
    Map<String, Variety> varieties = new LinkedHashMap<>();
    for (Variety variety : evidence.plants().varieties()) varieties.put(variety.id(), variety);
    for (TraitRecord record : added) {
      source(record.source(), sources, catalogue);
      Subject subject = record.subject();
      if (subject instanceof Subject.StockIn in) {
        stock(in.stock(), in.crop(), stocks, catalogue);
      } else if (subject instanceof Subject.OfVariety of) {
        variety(of.variety(), varieties, catalogue);
      } else if (subject instanceof Subject.Pairing pairing) {
        stock(pairing.stock(), pairing.crop(), stocks, catalogue);
        if (pairing.variety() != null) variety(pairing.variety(), varieties, catalogue);
      }
    }
    List<TraitRecord> records = new ArrayList<>(evidence.records());
    records.removeIf(record -> removed.contains(record.id()));
    records.addAll(added);
    return new Evidence(
        evidence.traits(), new Plants(stocks.values(), varieties.values()), sources, records);
  }

  private static void source(String id, Map<String, Source> sources, Evidence catalogue) {
    Source source = catalogue.sources().get(id);
    if (source == null || sources.putIfAbsent(id, source) != null) return;
    if (source.origin() != null) source(source.origin(), sources, catalogue);
  }

  private static void stock(String id, Crop crop, Map<String, Stock> stocks, Evidence catalogue) {
    Stock known = stocks.get(id);
    Stock stock = known != null ? known : catalogue.plants().stock(id).orElseThrow();
    EnumSet<Crop> crops = EnumSet.of(crop);
    crops.addAll(stock.crops());
    stocks.put(
        id, new Stock(id, stock.name(), stock.kind(), crops, stock.cloneOf(), stock.synonyms()));
    if (known == null && stock.cloneOf() != null && !stocks.containsKey(stock.cloneOf())) {
      stocks.put(stock.cloneOf(), catalogue.plants().stock(stock.cloneOf()).orElseThrow());
    }
  }

  private static void variety(String id, Map<String, Variety> varieties, Evidence catalogue) {
    if (!varieties.containsKey(id)) varieties.put(id, catalogue.plants().variety(id).orElseThrow());
  }
}
