package org.understock.migrations;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.understock.evidence.Evidence;
import org.understock.evidence.Ordering;
import org.understock.evidence.Problem;
import org.understock.evidence.reading.Catalogue;
import org.understock.evidence.reading.EvidenceReader;
import org.understock.evidence.reading.Gathered;
import org.understock.plant.Crop;
import org.understock.plant.Plants;

/**
 * The published evidence that comes with the product, read from the CSV files beside this class.
 *
 * @param species botanical names by crop
 * @param orderings published orders without figures
 * @param report what was read and what was refused
 */
public record StarterEvidence(
    Map<Crop, String> species, Evidence evidence, List<Ordering> orderings, Report report) {
  private static final String FOLDER = "/evidence/";

  public StarterEvidence {
    orderings = List.copyOf(orderings);
  }

  /** Reads all files; takes about a quarter of a second. */
  public static StarterEvidence read() {
    List<Problem> problems = new ArrayList<>();
    Catalogue catalogue = Catalogue.read(StarterEvidence::open, problems::add);
    EvidenceReader reader = new EvidenceReader(catalogue);
    Gathered read = new Gathered();
    List<EvidenceReader.Tally> tallies = new ArrayList<>();
    for (EvidenceReader.Kind kind : EvidenceReader.Kind.STATEMENTS)
      tallies.add(reader.read(kind, kind.file(), () -> open(kind.file()), read));
    problems.addAll(read.problems());
    Evidence evidence =
        new Evidence(catalogue.traits(), catalogue.plants(), catalogue.sources(), read.records());
    return new StarterEvidence(
        catalogue.species(), evidence, read.orderings(), Report.of(evidence, tallies, problems));
  }

  /** Crops and traits alone. */
  StarterEvidence withoutStatements() {
    Evidence bare =
        new Evidence(evidence.traits(), new Plants(List.of(), List.of()), Map.of(), List.of());
    return new StarterEvidence(species, bare, List.of(), Report.of(bare, List.of(), List.of()));
  }

  /**
   * Ids of the stocks that belong to the classes of stocks which sources speak of, by the id of the
   * class.
   */
  public static Map<String, List<String>> groups() {
    return Catalogue.groups(
        open("stock-groups.csv"),
        problem -> {
          throw new IllegalStateException(problem.toString());
        });
  }

  private static InputStream open(String file) {
    InputStream stream = StarterEvidence.class.getResourceAsStream(FOLDER + file);
    if (stream == null)
      throw new IllegalStateException("resource " + FOLDER + file + " is missing from the jar");
    return stream;
  }
}
