package org.understock.evidence.pooling;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Method;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Traits;
import org.understock.trait.Value;

/** A small evidence set put together by hand; all its plants, sources and records are invented. */
final class Gathered {
  private final List<Trait> traits = new ArrayList<>();
  private final Map<String, Stock> stocks = new LinkedHashMap<>();
  private final Map<String, Variety> varieties = new LinkedHashMap<>();
  private final Map<String, Source> sources = new LinkedHashMap<>();
  private final List<TraitRecord> records = new ArrayList<>();

  Gathered trait(String id, Trait.Scale scale, String unit, String... levels) {
    traits.add(
        new Trait(
            id,
            id,
            "",
            Set.of(Trait.SubjectKind.STOCK, Trait.SubjectKind.VARIETY),
            scale,
            unit,
            -1000,
            1000,
            List.of(levels)));
    return this;
  }

  Gathered strain(String id, String parent) {
    stocks.put(id, new Stock(id, id, Stock.Kind.CLONE, Set.of(Crop.APPLE), parent, List.of()));
    return this;
  }

  Gathered source(String id, @Nullable String origin, String note) {
    sources.put(
        id, new Source(id, "extension-bulletin", id, "", null, "", null, null, note, origin));
    return this;
  }

  Subject stock(Crop crop, String id) {
    stocks.putIfAbsent(id, new Stock(id, id, Stock.Kind.CLONE, Set.of(crop), null, List.of()));
    return new Subject.StockIn(crop, id);
  }

  Subject variety(String id) {
    varieties.putIfAbsent(id, new Variety(id, Crop.APPLE, id, List.of()));
    return new Subject.OfVariety(Crop.APPLE, id);
  }

  Gathered says(String source, Method method, Subject subject, String trait, Value value) {
    return says(source, method, subject, trait, value, "Table 1", Context.NONE);
  }

  Gathered says(
      String source,
      Method method,
      Subject subject,
      String trait,
      Value value,
      String locator,
      Context context) {
    if (!sources.containsKey(source)) source(source, null, "");
    String id = "r" + records.size();
    records.add(new TraitRecord(id, subject, trait, value, method, source, locator, context, ""));
    return this;
  }

  Evidence evidence() {
    return new Evidence(
        new Traits(traits), new Plants(stocks.values(), varieties.values()), sources, records);
  }

  TraitPools pools() {
    return TraitPools.of(evidence());
  }

  <E extends Estimate> E pooled(Class<E> kind, Subject subject, String trait) {
    return kind.cast(pools().estimates().get(subject).get(trait));
  }
}
