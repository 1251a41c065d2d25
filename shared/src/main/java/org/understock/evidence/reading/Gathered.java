package org.understock.evidence.reading;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.understock.evidence.Ordering;
import org.understock.evidence.Problem;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/** Keeps all that is read, in lists: for files that are known to be small. */
public final class Gathered implements Sink {
  private final List<TraitRecord> records = new ArrayList<>();
  private final List<Ordering> orderings = new ArrayList<>();
  private final List<Source> sources = new ArrayList<>();
  private final List<Stock> stocks = new ArrayList<>();
  private final List<Variety> varieties = new ArrayList<>();
  private final Map<String, List<String>> stockNames = new LinkedHashMap<>();
  private final Map<String, List<String>> varietyNames = new LinkedHashMap<>();
  private final List<Problem> problems = new ArrayList<>();

  @Override
  public void records(long line, List<TraitRecord> said) {
    records.addAll(said);
  }

  @Override
  public void ordering(long line, Ordering ordering) {
    orderings.add(ordering);
  }

  @Override
  public void source(long line, Source source) {
    sources.add(source);
  }

  @Override
  public void stock(long line, Stock stock) {
    stocks.add(stock);
  }

  @Override
  public void variety(long line, Variety variety) {
    varieties.add(variety);
  }

  @Override
  public void stockName(long line, String stock, String name) {
    stockNames.computeIfAbsent(stock, s -> new ArrayList<>()).add(name);
  }

  @Override
  public void varietyName(long line, String variety, String name) {
    varietyNames.computeIfAbsent(variety, v -> new ArrayList<>()).add(name);
  }

  @Override
  public void problem(Problem problem) {
    problems.add(problem);
  }

  public List<TraitRecord> records() {
    return List.copyOf(records);
  }

  public List<Ordering> orderings() {
    return List.copyOf(orderings);
  }

  public List<Source> sources() {
    return List.copyOf(sources);
  }

  public List<Stock> stocks() {
    return List.copyOf(stocks);
  }

  public List<Variety> varieties() {
    return List.copyOf(varieties);
  }

  /** Spellings by the id of the stock. */
  public Map<String, List<String>> stockNames() {
    return Map.copyOf(stockNames);
  }

  /** Spellings by the id of the variety. */
  public Map<String, List<String>> varietyNames() {
    return Map.copyOf(varietyNames);
  }

  public List<Problem> problems() {
    return List.copyOf(problems);
  }
}
