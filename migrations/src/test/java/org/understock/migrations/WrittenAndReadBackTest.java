package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.reading.Catalogue;
import org.understock.evidence.reading.EvidenceFile;
import org.understock.evidence.reading.EvidenceReader;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.evidence.reading.Gathered;

/**
 * The starter evidence, written to files and read into an empty reader, is the starter evidence.
 */
class WrittenAndReadBackTest {
  private static final StarterEvidence STARTER = StarterEvidence.read();

  @Test
  void allOfIt() throws IOException {
    Map<Kind, byte[]> files = new EnumMap<>(Kind.class);
    for (Kind kind : Kind.values()) files.put(kind, written(kind));
    Gathered read = new Gathered();
    Catalogue catalogue =
        Catalogue.read(
            file -> {
              for (Kind kind : Kind.values())
                if (kind.file().equals(file)) return new ByteArrayInputStream(files.get(kind));
              return resource(file);
            },
            read::problem);
    EvidenceReader reader = new EvidenceReader(catalogue);
    for (Kind kind : Kind.STATEMENTS)
      reader.read(kind, kind.file(), () -> new ByteArrayInputStream(files.get(kind)), read);

    assertThat(read.problems()).isEmpty();
    assertThat(read.orderings()).containsExactlyInAnyOrderElementsOf(STARTER.orderings());
    assertThat(read.records()).hasSameSizeAs(STARTER.evidence().records());
    Evidence back =
        new Evidence(catalogue.traits(), catalogue.plants(), catalogue.sources(), read.records());
    assertThat(back.records().stream().map(Canonical::text).toList())
        .isEqualTo(STARTER.evidence().records().stream().map(Canonical::text).toList());
    assertThat(Canonical.contentDigest(back))
        .isEqualTo(Canonical.contentDigest(STARTER.evidence()));
  }

  /**
   * Other spellings stand in the rows of their plants, so the files of names are written without
   * rows here.
   */
  private static byte[] written(Kind kind) throws IOException {
    StringWriter text = new StringWriter();
    Evidence evidence = STARTER.evidence();
    try (EvidenceFile file = new EvidenceFile(kind, evidence.traits(), text)) {
      switch (kind) {
        case SOURCES -> evidence.sources().values().forEach(file::write);
        case STOCKS -> evidence.plants().stocks().forEach(file::write);
        case VARIETY_CATALOGUE -> evidence.plants().varieties().forEach(file::write);
        case ORDERINGS -> STARTER.orderings().forEach(file::write);
        case STOCK_NAMES, VARIETY_NAMES -> {}
        default ->
            evidence.records().stream()
                .filter(r -> EvidenceFile.kindOf(r) == kind)
                .forEach(file::write);
      }
    }
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  private static InputStream resource(String file) {
    InputStream stream = StarterEvidence.class.getResourceAsStream("/evidence/" + file);
    assertThat(stream).as(file).isNotNull();
    return stream;
  }

  @Test
  void oneRecordMoreOrLessIsAnotherContent() {
    Evidence all = STARTER.evidence();
    Evidence less =
        new Evidence(
            all.traits(),
            all.plants(),
            all.sources(),
            all.records().subList(1, all.records().size()));
    assertThat(Canonical.contentDigest(less)).isNotEqualTo(Canonical.contentDigest(all));
    Evidence fewerSources = new Evidence(all.traits(), all.plants(), Map.of(), all.records());
    assertThat(Canonical.contentDigest(fewerSources)).isNotEqualTo(Canonical.contentDigest(all));
  }
}
