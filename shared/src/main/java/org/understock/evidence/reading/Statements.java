package org.understock.evidence.reading;

import java.util.ArrayList;
import java.util.List;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Source;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.trait.Refusal;

/** One kind of statement file: which columns it has and what its rows say. */
interface Statements {
  List<String> columns();

  List<String> optionalColumns();

  /** Whether all rows must be looked over before any is read. */
  default boolean surveys() {
    return false;
  }

  /** Looks over a row before any is read, for what one row needs to know of the others. */
  default void survey(Row row) {}

  /**
   * What a row says; one row may make several statements (both plums, every stock of a
   * class). @throws Refusal naming the column
   */
  List<RecordCheck.Draft> drafts(Row row);

  /** Crops that a row means: {@code plum} stands for both plums. */
  static List<Crop> crops(Row row) {
    return row.text("crop").equals("plum")
        ? List.of(Crop.EUROPEAN_PLUM, Crop.JAPANESE_PLUM)
        : List.of(row.crop());
  }

  static String stock(Catalogue catalogue, Row row, String column) {
    String printed = row.required(column);
    return catalogue.plants().requireStock(column, printed).id();
  }

  static String variety(Catalogue catalogue, Crop crop, Row row) {
    return catalogue.plants().requireVariety("variety", crop, row.required("variety")).id();
  }

  /** The columns that every kind may have beside its own. */
  static List<String> optional(List<String> own, List<String> needed) {
    List<String> columns = new ArrayList<>(own);
    for (String column : ContextColumns.ALL) if (!needed.contains(column)) columns.add(column);
    return List.copyOf(columns);
  }

  static Source source(Catalogue catalogue, Row row) {
    String id = row.required("source_id");
    Source source = catalogue.sources().get(id);
    if (source == null)
      throw new Refusal.Unknown(
          "source_id",
          id,
          Names.closest(id, catalogue.sources().keySet().stream().sorted().toList(), 3));
    return source;
  }

  /** The row's own tag, or the one that the rule gives. */
  static Method method(Catalogue catalogue, Row row) {
    String given = row.text("method");
    return given.isEmpty()
        ? MethodRule.ofStatement(source(catalogue, row), row.text("note"))
        : Method.of(given);
  }
}
