package org.understock.migrations;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Canonical;
import org.understock.evidence.Context;
import org.understock.evidence.Ordering;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Traits;
import org.understock.trait.Value;

/**
 * Writes evidence into the tables, as first contained in a given revision or as proposed. Runs
 * inside the caller's transaction.
 */
public final class EvidenceWriter {
  /** Columns of {@code records} that say what a statement says. */
  private static final List<String> CONTENT =
      List.of(
          "crop",
          "subject",
          "stock",
          "variety",
          "reach",
          "trait",
          "scale",
          "unit",
          "value_low",
          "value_high",
          "level",
          "value_name",
          "method",
          "source",
          "locator",
          "trial",
          "site",
          "scion",
          "planted_year",
          "measured_year",
          "trees",
          "spread_kind",
          "spread_value",
          "interstem",
          "age_years",
          "relative_to",
          "note",
          "content_key",
          "supersedes");

  private final Connection connection;
  private final @Nullable Long revision;
  private final String actor;
  private final @Nullable String importId;

  private EvidenceWriter(
      Connection connection, @Nullable Long revision, String actor, @Nullable String importId) {
    this.connection = connection;
    this.revision = revision;
    this.actor = actor;
    this.importId = importId;
  }

  /** What is written counts as of a revision. */
  static EvidenceWriter accepted(Connection connection, long revision, String actor) {
    return new EvidenceWriter(connection, revision, actor, null);
  }

  /** What is written waits for a review. */
  public static EvidenceWriter proposed(Connection connection, String actor) {
    return new EvidenceWriter(connection, null, actor, null);
  }

  /**
   * What is written came with an import and waits for a review; a record that is there already by
   * then is left as it is.
   */
  public static EvidenceWriter imported(Connection connection, String actor, String importId) {
    return new EvidenceWriter(connection, null, actor, importId);
  }

  void crops(Map<Crop, String> species) throws SQLException {
    try (Batch batch = new Batch(connection, "crops", "id, name, species")) {
      for (Crop crop : Crop.values())
        batch.add(crop.id(), crop.label(), Objects.requireNonNull(species.get(crop), crop.id()));
      batch.flush();
    }
  }

  void traits(Traits traits) throws SQLException {
    try (Batch rows =
            new Batch(
                connection,
                "traits",
                "id, name, definition, scale, unit, min_value, max_value, since_revision");
        Batch subjects = new Batch(connection, "trait_subjects", "trait, subject");
        Batch levels = new Batch(connection, "trait_levels", "trait, position, level")) {
      for (Trait t : traits.all()) {
        rows.add(
            t.id(),
            t.name(),
            t.definition(),
            word(t.scale()),
            t.unit(),
            t.min(),
            t.max(),
            revision);
        for (Trait.SubjectKind subject : new TreeSet<>(t.subjects()))
          subjects.add(t.id(), word(subject));
        for (int i = 0; i < t.levels().size(); i++) levels.add(t.id(), i, t.levels().get(i));
      }
      rows.flush();
      subjects.flush();
      levels.flush();
    }
  }

  /**
   * Stocks with their crops and spellings, varieties with theirs; clones may stand anywhere in the
   * list.
   */
  public void plants(Collection<Stock> stocks, Collection<Variety> varieties) throws SQLException {
    try (Batch rows =
            new Batch(
                connection,
                "stocks",
                "id, name, kind, clone_of, since_revision, proposed_by, import_id");
        Batch crops = new Batch(connection, "stock_crops", "stock, crop, since_revision");
        Batch names = new Batch(connection, "stock_names", "stock, name, since_revision")) {
      // Parents before their clones: the foreign key is checked row by row.
      for (boolean clones : new boolean[] {false, true}) {
        for (Stock s : stocks) {
          if ((s.cloneOf() != null) == clones)
            rows.add(s.id(), s.name(), word(s.kind()), s.cloneOf(), revision, actor, importId);
        }
      }
      for (Stock s : stocks) {
        for (Crop crop : new TreeSet<>(s.crops())) crops.add(s.id(), crop.id(), revision);
        for (String name : s.synonyms()) names.add(s.id(), name, revision);
      }
      rows.flush();
      crops.flush();
      names.flush();
    }
    try (Batch rows =
            new Batch(
                connection, "varieties", "id, crop, name, since_revision, proposed_by, import_id");
        Batch names = new Batch(connection, "variety_names", "variety, name, since_revision")) {
      for (Variety v : varieties) {
        rows.add(v.id(), v.crop().id(), v.name(), revision, actor, importId);
        for (String name : v.synonyms()) names.add(v.id(), name, revision);
      }
      rows.flush();
      names.flush();
    }
  }

  /** Sources; one that restates another may stand before it. */
  public void sources(Collection<Source> sources) throws SQLException {
    try (Batch rows =
        new Batch(
            connection,
            "sources",
            "id, kind, title, authors, year, publication, doi_or_isbn, url, note, origin, since_revision, proposed_by, import_id")) {
      for (boolean restating : new boolean[] {false, true}) {
        for (Source s : sources) {
          if ((s.origin() != null) != restating) continue;
          rows.add(
              s.id(),
              s.kind(),
              s.title(),
              s.authorsOrBody(),
              s.year(),
              s.publication(),
              s.doiOrIsbn(),
              s.url(),
              s.note(),
              s.origin(),
              revision,
              actor,
              importId);
        }
      }
      rows.flush();
    }
  }

  private void trials(Stream<@Nullable String> ids) throws SQLException {
    TreeSet<String> trials = new TreeSet<>();
    ids.filter(Objects::nonNull).forEach(trials::add);
    try (Batch rows = new Batch(connection, "trials", "id", "on conflict do nothing")) {
      for (String trial : trials) rows.add(trial);
      rows.flush();
    }
  }

  void orderings(List<Ordering> orderings) throws SQLException {
    trials(orderings.stream().map(Ordering::trial));
    try (Batch rows =
        new Batch(
            connection,
            "orderings",
            "source, trial, crop, scion, site, trait, place, stock, locator, note, since_revision")) {
      for (Ordering o : orderings) {
        rows.add(
            o.source(),
            o.trial(),
            o.crop().id(),
            o.scion(),
            o.site(),
            o.trait(),
            o.group(),
            o.stock(),
            o.locator(),
            o.note(),
            revision);
      }
      rows.flush();
    }
  }

  /** A record and the accepted one that it is to take the place of. */
  public record Filed(TraitRecord record, @Nullable String supersedes) {}

  /** Records with their trials. */
  public void records(List<Filed> records, Traits traits) throws SQLException {
    trials(records.stream().map(f -> f.record().context().trial()));
    String columns =
        "id, status, revision_from, proposed_by, import_id, " + String.join(", ", CONTENT);
    try (Batch rows =
        new Batch(
            connection, "records", columns, importId == null ? "" : "on conflict do nothing")) {
      for (Filed filed : records) {
        String status = revision == null ? "proposed" : "accepted";
        List<@Nullable Object> row =
            new ArrayList<>(Arrays.asList(filed.record().id(), status, revision, actor, importId));
        row.addAll(content(filed, traits.get(filed.record().trait())));
        rows.add(row.toArray());
      }
      rows.flush();
    }
  }

  /**
   * Gives the proposal of an id another content. @throws SQLException when there is no such
   * proposal, or the database refuses the content
   */
  public void amend(String id, Filed filed, Traits traits) throws SQLException {
    trials(Stream.of(filed.record().context().trial()));
    String set = String.join(" = ?, ", CONTENT) + " = ?, edited_by = ?, edited_at = now()";
    try (PreparedStatement update =
        connection.prepareStatement(
            "update records set " + set + " where id = ? and status = 'proposed'")) {
      List<@Nullable Object> row =
          new ArrayList<>(content(filed, traits.get(filed.record().trait())));
      row.add(actor);
      row.add(id);
      for (int i = 0; i < row.size(); i++) update.setObject(i + 1, row.get(i));
      if (update.executeUpdate() != 1)
        throw new SQLException("there is no proposal " + id, "02000");
    }
  }

  /** Values of {@link #CONTENT}. */
  private static List<@Nullable Object> content(Filed filed, Trait trait) {
    TraitRecord r = filed.record();
    Columns s = subject(r.subject());
    Context c = r.context();
    return Arrays.asList(
        r.subject().crop().id(),
        s.kind(),
        s.stock(),
        s.variety(),
        s.reach(),
        r.trait(),
        word(trait.scale()),
        trait.unit(),
        low(r.value()),
        high(r.value()),
        r.value() instanceof Value.Level l ? l.level() : null,
        r.value() instanceof Value.Name n ? n.name() : null,
        r.method().id(),
        r.source(),
        r.locator(),
        c.trial(),
        c.site(),
        c.scion(),
        c.plantedYear(),
        c.measuredYear(),
        c.trees(),
        c.spread() == null ? null : c.spread().kind().name(),
        c.spread() == null ? null : c.spread().value(),
        c.interstem(),
        c.ageYears(),
        c.relativeTo(),
        r.note(),
        Canonical.key(r),
        filed.supersedes());
  }

  private static @Nullable Double low(Value value) {
    if (value instanceof Value.Quantity q) return q.value();
    return value instanceof Value.Range r ? r.low() : null;
  }

  private static @Nullable Double high(Value value) {
    if (value instanceof Value.Quantity q) return q.value();
    return value instanceof Value.Range r ? r.high() : null;
  }

  private record Columns(
      String kind, @Nullable String stock, @Nullable String variety, @Nullable String reach) {}

  private static Columns subject(Subject subject) {
    if (subject instanceof Subject.StockIn s) return new Columns("stock", s.stock(), null, null);
    if (subject instanceof Subject.OfVariety v)
      return new Columns("variety", null, v.variety(), null);
    Subject.Pairing p = (Subject.Pairing) subject;
    return new Columns("pairing", p.stock(), p.variety(), word(p.reach()));
  }

  static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
