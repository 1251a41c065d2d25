package org.understock.evidence.reading;

import java.io.Reader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
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
import org.understock.trait.Trait;
import org.understock.trait.Traits;

/**
 * What the statements speak of: traits, stocks, varieties, sources, and the classes of stocks that a source names instead of a stock.
 *
 * @param species botanical names by crop
 * @param groups ids of the stocks that belong to a class of stocks, by the id of the class
 */
public record Catalogue(
    Map<Crop, String> species, Traits traits, Plants plants, Map<String, Source> sources, Map<String, List<String>> groups) {
  public Catalogue {
    species = Map.copyOf(species);
    sources = Map.copyOf(sources);
    groups = Map.copyOf(groups);
  }

  /**
   * Reads the catalogue files.
   *
   * @param open from a file name ({@code traits.csv}, {@code stocks.csv}, …) to its text
   * @param problems told of every row that is refused
   */
  public static Catalogue read(Function<String, Reader> open, Consumer<Problem> problems) {
    Map<Crop, String> species = new EnumMap<>(Crop.class);
    list(open, "crops.csv", List.of("id", "name", "species"), problems, row -> Map.entry(Crop.of(row.required("id")), row.required("species")))
        .forEach(crop -> species.put(crop.getKey(), crop.getValue()));
    Traits traits = new Traits(
        list(open, "traits.csv", List.of("id", "name", "definition", "subjects", "scale", "unit", "min", "max", "levels"), problems,
            Catalogue::trait));
    Map<String, List<String>> stockNames = names(open, "stock-names.csv", "stock", problems);
    Map<String, List<String>> varietyNames = names(open, "variety-names.csv", "variety", problems);
    List<Stock> stocks = list(open, "stocks.csv", List.of("id", "name", "kind", "crops", "clone_of"), problems, row -> stock(row, stockNames));
    List<Variety> varieties = list(open, "variety-catalogue.csv", List.of("id", "crop", "name"), problems, row -> new Variety(
        row.required("id"), row.crop(), row.required("name"), varietyNames.getOrDefault(row.text("id"), List.of())));
    Map<String, Source> sources = new TreeMap<>();
    List<String> columns = List.of("source_id", "kind", "title", "authors_or_body", "year", "publication", "doi_or_isbn", "url", "note", "origin");
    for (Source source : list(open, "sources.csv", columns, problems, Catalogue::source)) {
      if (sources.put(source.id(), source) != null) throw new Refusal.Conflict("source_id", "source " + source.id() + " is given twice");
    }
    Map<String, List<String>> groups = new LinkedHashMap<>();
    for (String[] pair : list(open, "stock-groups.csv", List.of("stock_class", "stock"), problems,
        row -> new String[] {row.required("stock_class"), row.required("stock")})) {
      groups.computeIfAbsent(pair[0], g -> new ArrayList<>()).add(pair[1]);
    }
    Plants plants = new Plants(stocks, varieties);
    checkTies(plants, stocks, varieties, stockNames.keySet(), varietyNames.keySet(), sources, groups);
    return new Catalogue(species, traits, plants, sources, groups);
  }

  /** Everything that one file of the catalogue says of another must be there: parents of clones, origins, owners of synonyms, members of groups. */
  private static void checkTies(
      Plants plants, List<Stock> stocks, List<Variety> varieties, Set<String> namedStocks, Set<String> namedVarieties, Map<String, Source> sources,
      Map<String, List<String>> groups) {
    if (plants.stocks().size() != stocks.size() || plants.varieties().size() != varieties.size())
        throw new Refusal.Conflict("id", "an id of a plant is given twice");
    for (Stock stock : stocks) if (stock.cloneOf() != null) known(plants, "clone_of", stock.cloneOf());
    for (String id : namedStocks) known(plants, "stock", id);
    for (String id : namedVarieties) if (plants.variety(id).isEmpty()) throw new Refusal.Unknown("variety", id, plants.nearestVarieties(id));
    for (Source source : sources.values()) {
      if (source.origin() != null && !sources.containsKey(source.origin())) throw new Refusal.Unknown("origin", source.origin(), List.of());
    }
    groups.forEach((group, members) -> {
      known(plants, "stock_class", group);
      members.forEach(member -> known(plants, "stock", member));
    });
  }

  private static void known(Plants plants, String field, String id) {
    if (plants.stock(id).isEmpty()) throw new Refusal.Unknown(field, id, plants.nearestStocks(id));
  }

  private static Map<String, List<String>> names(Function<String, Reader> open, String file, String owner, Consumer<Problem> problems) {
    Map<String, List<String>> names = new LinkedHashMap<>();
    for (String[] pair : list(open, file, List.of(owner, "name", "note"), problems, row -> new String[] {row.required(owner), row.required("name")}))
        {
      names.computeIfAbsent(pair[0], id -> new ArrayList<>()).add(pair[1]);
    }
    return names;
  }

  private static <T> List<T> list(
      Function<String, Reader> open, String file, List<String> columns, Consumer<Problem> problems, Function<Row, T> make) {
    List<T> list = new ArrayList<>();
    new Csv(file, columns, List.of(), problems).forEach(open.apply(file), row -> {
      try {
        list.add(make.apply(row));
      } catch (Refusal refusal) {
        problems.accept(new Problem(file, row.line(), refusal.field(), refusal.getMessage()));
      }
    });
    return list;
  }

  private static Trait trait(Row row) {
    EnumSet<Trait.SubjectKind> subjects = EnumSet.noneOf(Trait.SubjectKind.class);
    for (String word : row.required("subjects").split(" ")) subjects.add(word("subjects", word, Trait.SubjectKind.class));
    String levels = row.text("levels");
    return new Trait(row.required("id"), row.required("name"), row.required("definition"), subjects,
        word("scale", row.required("scale"), Trait.Scale.class),
        row.text("unit"), row.number("min").orElse(0), row.number("max").orElse(0), levels.isEmpty() ? List.of() : List.of(levels.split(" ")));
  }

  private static Stock stock(Row row, Map<String, List<String>> names) {
    EnumSet<Crop> crops = EnumSet.noneOf(Crop.class);
    for (String crop : row.required("crops").split(" ")) crops.add(Crop.of(crop));
    return new Stock(row.required("id"), row.required("name"), word("kind", row.required("kind"), Stock.Kind.class), crops, row.optional("clone_of"),
        names.getOrDefault(row.text("id"), List.of()));
  }

  private static Source source(Row row) {
    String year = row.text("year");
    return new Source(row.required("source_id"), row.required("kind"), row.required("title"), row.text("authors_or_body"),
        year.isEmpty() || year.equals("n.d.") ? null : year, row.text("publication"), row.optional("doi_or_isbn"), row.optional("url"),
            row.text("note"),
        row.optional("origin"));
  }

  static <E extends Enum<E>> E word(String field, String word, Class<E> type) {
    try {
      return Enum.valueOf(type, word.toUpperCase(Locale.ROOT).replace('-', '_'));
    } catch (IllegalArgumentException e) {
      throw new Refusal.Unknown(field, word,
          Arrays.stream(type.getEnumConstants()).map(c -> c.name().toLowerCase(Locale.ROOT).replace('_', '-')).toList());
    }
  }
}
