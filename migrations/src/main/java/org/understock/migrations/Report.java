package org.understock.migrations;

import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.understock.evidence.Evidence;
import org.understock.evidence.Problem;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.EvidenceReader;

/**
 * What a reading of the starter evidence loaded and refused.
 *
 * @param files how each statement file fared, in the order read
 * @param refused every refused row with its reason
 */
public record Report(
    int sources,
    int stocks,
    int varieties,
    int traits,
    int records,
    List<EvidenceReader.Tally> files,
    SortedMap<String, Long> byCrop,
    SortedMap<String, Long> byTrait,
    SortedMap<String, Long> byMethod,
    List<Problem> refused) {

  static Report of(Evidence evidence, List<EvidenceReader.Tally> files, List<Problem> refused) {
    return new Report(
        evidence.sources().size(),
        evidence.plants().stocks().size(),
        evidence.plants().varieties().size(),
        evidence.traits().all().size(),
        evidence.records().size(),
        List.copyOf(files),
        count(evidence, r -> r.subject().crop().id()),
        count(evidence, TraitRecord::trait),
        count(evidence, r -> r.method().id()),
        List.copyOf(refused));
  }

  private static SortedMap<String, Long> count(
      Evidence evidence, Function<TraitRecord, String> by) {
    return evidence.records().stream()
        .collect(Collectors.groupingBy(by, TreeMap::new, Collectors.counting()));
  }

  /** Rows read without a fault, over all files. */
  public int loadedRows() {
    return files.stream().mapToInt(f -> f.rows() - f.refused()).sum();
  }

  /** A line of totals, for the log. */
  public String summary() {
    return records
        + " records from "
        + loadedRows()
        + " statements, "
        + sources
        + " sources, "
        + stocks
        + " stocks, "
        + varieties
        + " varieties, "
        + traits
        + " traits; "
        + refused.size()
        + " rows refused";
  }

  /** Everything, a line each: totals, files, crops, methods, traits, refusals. */
  public String details() {
    StringBuilder text = new StringBuilder(summary()).append('\n');
    for (EvidenceReader.Tally f : files) {
      text.append(
          String.format(
              "  %-18s %5d rows, %4d refused, %5d records%n",
              f.file(), f.rows(), f.refused(), f.read()));
    }
    table(text, "by crop", byCrop);
    table(text, "by method", byMethod);
    table(text, "by trait", byTrait);
    for (Problem problem : refused) text.append("  refused ").append(problem).append('\n');
    return text.toString();
  }

  private static void table(StringBuilder text, String title, Map<String, Long> counts) {
    text.append("  ").append(title).append(':');
    counts.forEach(
        (name, count) -> text.append(' ').append(name).append(' ').append(count).append(','));
    text.setCharAt(text.length() - 1, '\n');
  }
}
