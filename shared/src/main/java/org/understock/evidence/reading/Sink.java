package org.understock.evidence.reading;

import java.util.List;
import org.understock.evidence.Ordering;
import org.understock.evidence.Problem;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * Takes what a reader reads, row by row, in the order of the file; rows that wait for another (a
 * clone for its stock) come after it.
 */
public interface Sink {
  /** What one row states; all of it or, with a problem, nothing. */
  void records(long line, List<TraitRecord> records);

  void ordering(long line, Ordering ordering);

  void source(long line, Source source);

  void stock(long line, Stock stock);

  void variety(long line, Variety variety);

  /** Another spelling of a known stock. @param stock its id */
  void stockName(long line, String stock, String name);

  /** Another spelling of a known variety. @param variety its id */
  void varietyName(long line, String variety, String name);

  /** Something that is wrong with a row or the file. */
  void problem(Problem problem);
}
