package org.understock.plant;

import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.understock.trait.Refusal;

/** The catalogue of stocks and varieties, and the way from any usual spelling to an id. */
public final class Plants {
  private final Map<String, Stock> stocks = new LinkedHashMap<>();
  private final Map<String, Variety> varieties = new LinkedHashMap<>();
  private final Names stockNames = new Names();
  private final Names varietyNames = new Names();

  public Plants(Collection<Stock> stocks, Collection<Variety> varieties) {
    stocks.stream()
        .sorted(java.util.Comparator.comparing(Stock::id))
        .forEach(
            s -> {
              this.stocks.put(s.id(), s);
              stockNames.add(s.id(), s.name(), s.synonyms());
            });
    varieties.stream()
        .sorted(java.util.Comparator.comparing(Variety::id))
        .forEach(
            v -> {
              this.varieties.put(v.id(), v);
              varietyNames.add(v.id(), v.name(), v.synonyms());
            });
  }

  public Collection<Stock> stocks() {
    return java.util.Collections.unmodifiableCollection(stocks.values());
  }

  public Collection<Variety> varieties() {
    return java.util.Collections.unmodifiableCollection(varieties.values());
  }

  public Optional<Stock> stock(String id) {
    return Optional.ofNullable(stocks.get(id));
  }

  public Optional<Variety> variety(String id) {
    return Optional.ofNullable(varieties.get(id));
  }

  /**
   * Stocks whose name, id or a synonym matches the text, best match first; an empty text matches
   * all.
   */
  public List<Stock> findStocks(String text) {
    return stockNames.find(text).stream().map(stocks::get).toList();
  }

  /**
   * Varieties whose name, id or a synonym matches the text, best match first; an empty text matches
   * all.
   */
  public List<Variety> findVarieties(String text) {
    return varietyNames.find(text).stream().map(varieties::get).toList();
  }

  /**
   * The stock that this exact id, name or synonym means (case, spaces and punctuation aside), if it
   * is unambiguous.
   */
  public Optional<Stock> resolveStock(String text) {
    return stockNames.resolve(text).map(stocks::get);
  }

  /**
   * The variety of a crop that this exact id, name or synonym means (case, spaces and punctuation
   * aside).
   */
  public Optional<Variety> resolveVariety(Crop crop, String text) {
    return varietyNames.resolveAll(text).stream()
        .map(varieties::get)
        .filter(v -> v.crop() == crop)
        .findFirst();
  }

  /**
   * The variety with this id; if there is none, the varieties of all crops that this name or
   * synonym means, one of a crop.
   */
  public List<Variety> meantVarieties(String text) {
    Variety exact = varieties.get(text);
    return exact != null
        ? List.of(exact)
        : Arrays.stream(Crop.values())
            .flatMap(crop -> resolveVariety(crop, text).stream())
            .toList();
  }

  /** Ids of the stocks whose spellings are nearest to the text, nearest first. */
  public List<String> nearestStocks(String text) {
    return stockNames.nearest(text, 3);
  }

  /** Ids of the varieties whose spellings are nearest to the text, nearest first. */
  public List<String> nearestVarieties(String text) {
    return varietyNames.nearest(text, 3);
  }

  /**
   * @throws Refusal.Unknown naming the nearest known ids
   */
  public Stock requireStock(String field, String id) {
    return stock(id)
        .or(() -> resolveStock(id))
        .orElseThrow(() -> new Refusal.Unknown(field, id, stockNames.nearest(id, 3)));
  }

  /**
   * @throws Refusal.Unknown naming the nearest known ids
   */
  public Variety requireVariety(String field, Crop crop, String id) {
    return variety(id)
        .filter(v -> v.crop() == crop)
        .or(() -> resolveVariety(crop, id))
        .orElseThrow(() -> new Refusal.Unknown(field, id, varietyNames.nearest(id, 3)));
  }
}
