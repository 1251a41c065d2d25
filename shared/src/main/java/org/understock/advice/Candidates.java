package org.understock.advice;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the asker wants judged. Nothing named: the whole catalogue of the crop, as far as it has
 * evidence enough to be advised unasked. Stocks and varieties: all their pairings (either alone:
 * against the catalogue's other side). Pairings: just those; all that is named is joined.
 */
public record Candidates(List<String> stocks, List<String> varieties, List<Named> pairings) {
  public static final Candidates ALL = new Candidates(List.of(), List.of(), List.of());

  /** One pairing by ids, with the asker's own stock-keeping unit handed back. */
  public record Named(String stock, String variety, @Nullable String sku) {}

  public Candidates {
    stocks = List.copyOf(stocks);
    varieties = List.copyOf(varieties);
    pairings = List.copyOf(pairings);
  }

  boolean isEmpty() {
    return stocks.isEmpty() && varieties.isEmpty() && pairings.isEmpty();
  }
}
