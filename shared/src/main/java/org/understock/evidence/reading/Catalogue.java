package org.understock.evidence.reading;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Function;
import org.understock.evidence.Problem;
import org.understock.evidence.Source;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;
import org.understock.trait.Traits;

/**
 * What the statements speak of: traits, stocks, varieties, sources, and the classes of stocks that
 * a source names instead of a stock.
 *
 * @param species botanical names by crop
 * @param groups ids of the stocks that belong to a class of stocks, by the id of the class
 */
public record Catalogue(
    Map<Crop, String> species,
    Traits traits,
    Plants plants,
    Map<String, Source> sources,
    Map<String, List<String>> groups) {
  public Catalogue {
    species = Map.copyOf(species);
    sources = Map.copyOf(sources);
    groups = Map.copyOf(groups);
  }

  /**
   * Reads the catalogue files.
   *
   * @param open from a file name ({@code traits.csv}, {@code stocks.csv}, …) to its bytes
   * @param problems told of every row that is refused
   */
  public static Catalogue read(Function<String, InputStream> open, Consumer<Problem> problems) {
    Map<Crop, String> species = new EnumMap<>(Crop.class);
    list(
            open,
            "crops.csv",
            List.of("id", "name", "species"),
            problems,
            row -> Map.entry(Crop.of(row.required("id")), row.required("species")))
        .forEach(crop -> species.put(crop.getKey(), crop.getValue()));
    Traits traits =
        new Traits(list(open, "traits.csv", CatalogueRows.TRAITS, problems, CatalogueRows::trait));
    Map<String, List<String>> stockNames = names(open, "stock-names.csv", "stock", problems);
    Map<String, List<String>> varietyNames = names(open, "variety-names.csv", "variety", problems);
    List<Stock> stocks =
        list(
            open,
            "stocks.csv",
            CatalogueRows.STOCKS,
            problems,
            row -> CatalogueRows.stock(row, stockNames.getOrDefault(row.text("id"), List.of())));
    List<Variety> varieties =
        list(
            open,
            "variety-catalogue.csv",
            CatalogueRows.VARIETIES,
            problems,
            row ->
                CatalogueRows.variety(row, varietyNames.getOrDefault(row.text("id"), List.of())));
    Map<String, Source> sources = new TreeMap<>();
    for (Source source :
        list(open, "sources.csv", CatalogueRows.SOURCES, problems, CatalogueRows::source)) {
      if (sources.put(source.id(), source) != null)
        throw new Refusal.Conflict("source_id", "source " + source.id() + " is given twice");
    }
    Map<String, List<String>> groups = groups(open.apply("stock-groups.csv"), problems);
    Plants plants = new Plants(stocks, varieties);
    checkTies(
        plants, stocks, varieties, stockNames.keySet(), varietyNames.keySet(), sources, groups);
    return new Catalogue(species, traits, plants, sources, groups);
  }

  /** Reads which stocks belong to the classes of stocks. Closes the file. */
  public static Map<String, List<String>> groups(InputStream file, Consumer<Problem> problems) {
    Map<String, List<String>> groups = new LinkedHashMap<>();
    for (String[] pair :
        list(
            name -> file,
            "stock-groups.csv",
            List.of("stock_class", "stock"),
            problems,
            row -> new String[] {row.required("stock_class"), row.required("stock")})) {
      groups.computeIfAbsent(pair[0], g -> new ArrayList<>()).add(pair[1]);
    }
    return groups;
  }

  /**
   * Everything that one file of the catalogue says of another must be there: parents of clones,
   * origins, owners of synonyms, members of groups.
   */
  private static void checkTies(
      Plants plants,
      List<Stock> stocks,
      List<Variety> varieties,
      Set<String> namedStocks,
      Set<String> namedVarieties,
      Map<String, Source> sources,
      Map<String, List<String>> groups) {
    if (plants.stocks().size() != stocks.size() || plants.varieties().size() != varieties.size())
      throw new Refusal.Conflict("id", "an id of a plant is given twice");
    for (Stock stock : stocks)
      if (stock.cloneOf() != null) known(plants, "clone_of", stock.cloneOf());
    for (String id : namedStocks) known(plants, "stock", id);
    for (String id : namedVarieties)
      if (plants.variety(id).isEmpty())
        throw new Refusal.Unknown("variety", id, plants.nearestVarieties(id));
    for (Source source : sources.values()) {
      if (source.origin() != null && !sources.containsKey(source.origin()))
        throw new Refusal.Unknown("origin", source.origin(), List.of());
    }
    groups.forEach(
        (group, members) -> {
          known(plants, "stock_class", group);
          members.forEach(member -> known(plants, "stock", member));
        });
  }

  private static void known(Plants plants, String field, String id) {
    if (plants.stock(id).isEmpty()) throw new Refusal.Unknown(field, id, plants.nearestStocks(id));
  }

  private static Map<String, List<String>> names(
      Function<String, InputStream> open, String file, String owner, Consumer<Problem> problems) {
    Map<String, List<String>> names = new LinkedHashMap<>();
    for (String[] pair :
        list(
            open,
            file,
            List.of(owner, "name", "note"),
            problems,
            row -> new String[] {row.required(owner), row.required("name")})) {
      names.computeIfAbsent(pair[0], id -> new ArrayList<>()).add(pair[1]);
    }
    return names;
  }

  private static <T> List<T> list(
      Function<String, InputStream> open,
      String file,
      List<String> columns,
      Consumer<Problem> problems,
      Function<Row, T> make) {
    List<T> list = new ArrayList<>();
    boolean plants = file.equals("stocks.csv") || file.equals("variety-catalogue.csv");
    new Csv(file, columns, plants ? CatalogueRows.SYNONYMS : List.of(), problems)
        .forEach(
            open.apply(file),
            row -> {
              try {
                list.add(make.apply(row));
              } catch (Refusal refusal) {
                problems.accept(
                    new Problem(file, row.line(), refusal.field(), refusal.getMessage()));
              }
            });
    return list;
  }
}
