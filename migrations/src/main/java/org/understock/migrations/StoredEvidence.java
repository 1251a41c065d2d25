package org.understock.migrations;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.evidence.Evidence;
import org.understock.evidence.Method;
import org.understock.evidence.Ordering;
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

/**
 * Reads the evidence as of a revision out of the database: what was accepted in it or before, and
 * not yet withdrawn or superseded.
 */
public final class StoredEvidence {
  private static final int FETCH_ROWS = 2000;

  /** Later than every revision: rows that still wait for their first one are read too. */
  private static final long PROPOSED_TOO = Long.MAX_VALUE;

  private static final String SINCE = "coalesce(%ssince_revision, " + PROPOSED_TOO + ") <= ?";

  private final Connection connection;
  private final long revision;

  private StoredEvidence(Connection connection, long revision) {
    this.connection = connection;
    this.revision = revision;
  }

  /** Number of the latest revision, or empty when nothing has been loaded. */
  public static OptionalLong latest(Connection connection) throws SQLException {
    try (PreparedStatement query =
            connection.prepareStatement("select max(number) from revisions");
        ResultSet rows = query.executeQuery()) {
      rows.next();
      long number = rows.getLong(1);
      return rows.wasNull() ? OptionalLong.empty() : OptionalLong.of(number);
    }
  }

  /** The evidence as of a revision, read in one transaction of its own. */
  public static Evidence read(DataSource database, long revision) throws SQLException {
    return alone(database, connection -> read(connection, revision));
  }

  /**
   * The same for who has an earlier revision in memory: of the records only those are read that
   * came or went since. The database itself refuses to change the words of an accepted record.
   *
   * @param known the evidence as of the revision {@code since}, which is not after {@code revision}
   */
  public static Evidence read(DataSource database, long revision, Evidence known, long since)
      throws SQLException {
    return alone(
        database,
        connection -> {
          StoredEvidence stored = new StoredEvidence(connection, revision);
          return stored.with(stored.recordsAfter(known.records(), since));
        });
  }

  private interface Reading {
    Evidence on(Connection connection) throws SQLException;
  }

  private static Evidence alone(DataSource database, Reading reading) throws SQLException {
    try (Connection connection = database.getConnection()) {
      boolean autoCommit = connection.getAutoCommit();
      connection.setAutoCommit(false);
      try {
        return reading.on(connection);
      } finally {
        connection.rollback();
        connection.setAutoCommit(autoCommit);
      }
    }
  }

  /**
   * The evidence as of a revision, read in the caller's transaction. Rows are streamed when the
   * connection does not commit by itself.
   */
  public static Evidence read(Connection connection, long revision) throws SQLException {
    StoredEvidence stored = new StoredEvidence(connection, revision);
    return stored.with(stored.records());
  }

  private Evidence with(List<TraitRecord> records) throws SQLException {
    return new Evidence(traits(), new Plants(stocks(), varieties()), sources(), records);
  }

  /**
   * Everything that statements may speak of, accepted or waiting for its first review; without any
   * records.
   */
  public static Evidence catalogue(Connection connection) throws SQLException {
    return new StoredEvidence(connection, PROPOSED_TOO).with(List.of());
  }

  /** The published orders as of a revision. */
  public static List<Ordering> orderings(Connection connection, long revision) throws SQLException {
    StoredEvidence stored = new StoredEvidence(connection, revision);
    return stored.list(
        "select * from orderings where "
            + SINCE.formatted("")
            + " order by source, trial, crop, scion, site, trait, place, stock",
        r ->
            new Ordering(
                r.getString("source"),
                r.getString("trial"),
                Crop.of(r.getString("crop")),
                r.getString("scion"),
                r.getString("site"),
                r.getString("trait"),
                r.getInt("place"),
                r.getString("stock"),
                r.getString("locator"),
                r.getString("note")));
  }

  private Traits traits() throws SQLException {
    Map<String, List<String>> subjects =
        strings(
            "select s.trait, s.subject from trait_subjects s join traits t on t.id = s.trait where "
                + SINCE.formatted("t.")
                + " order by 1, 2");
    Map<String, List<String>> levels =
        strings(
            "select l.trait, l.level from trait_levels l join traits t on t.id = l.trait where "
                + SINCE.formatted("t.")
                + " order by l.trait, l.position");
    return new Traits(
        list(
            "select * from traits where " + SINCE.formatted("") + " order by id",
            r -> {
              String id = r.getString("id");
              Set<Trait.SubjectKind> kinds = EnumSet.noneOf(Trait.SubjectKind.class);
              for (String word : subjects.getOrDefault(id, List.of()))
                kinds.add(constant(Trait.SubjectKind.class, word));
              return new Trait(
                  id,
                  r.getString("name"),
                  r.getString("definition"),
                  kinds,
                  constant(Trait.Scale.class, r.getString("scale")),
                  r.getString("unit"),
                  r.getDouble("min_value"),
                  r.getDouble("max_value"),
                  levels.getOrDefault(id, List.of()));
            }));
  }

  private List<Stock> stocks() throws SQLException {
    Map<String, List<String>> names =
        strings(
            "select stock, name from stock_names where " + SINCE.formatted("") + " order by 1, 2");
    Map<String, List<String>> crops =
        strings(
            "select stock, crop from stock_crops where " + SINCE.formatted("") + " order by 1, 2");
    return list(
        "select * from stocks where " + SINCE.formatted("") + " order by id",
        r -> {
          String id = r.getString("id");
          Set<Crop> used = EnumSet.noneOf(Crop.class);
          for (String crop : crops.getOrDefault(id, List.of())) used.add(Crop.of(crop));
          return new Stock(
              id,
              r.getString("name"),
              constant(Stock.Kind.class, r.getString("kind")),
              used,
              r.getString("clone_of"),
              names.getOrDefault(id, List.of()));
        });
  }

  private List<Variety> varieties() throws SQLException {
    Map<String, List<String>> names =
        strings(
            "select variety, name from variety_names where "
                + SINCE.formatted("")
                + " order by 1, 2");
    return list(
        "select * from varieties where " + SINCE.formatted("") + " order by id",
        r ->
            new Variety(
                r.getString("id"),
                Crop.of(r.getString("crop")),
                r.getString("name"),
                names.getOrDefault(r.getString("id"), List.of())));
  }

  private Map<String, Source> sources() throws SQLException {
    Map<String, Source> sources = new HashMap<>();
    for (Source source :
        list(
            "select * from sources where " + SINCE.formatted("") + " order by id",
            r ->
                new Source(
                    r.getString("id"),
                    r.getString("kind"),
                    r.getString("title"),
                    r.getString("authors"),
                    r.getString("year"),
                    r.getString("publication"),
                    r.getString("doi_or_isbn"),
                    r.getString("url"),
                    r.getString("note"),
                    r.getString("origin")))) {
      sources.put(source.id(), source);
    }
    return sources;
  }

  private List<TraitRecord> records() throws SQLException {
    return list(
        "select * from records where revision_from <= ? and (revision_to is null or revision_to > "
            + revision
            + ") order by id",
        StoredEvidence::record);
  }

  private List<TraitRecord> recordsAfter(List<TraitRecord> known, long since) throws SQLException {
    Set<String> gone =
        new HashSet<>(
            list(
                "select id from records where revision_to <= ? and revision_to > " + since,
                r -> r.getString("id")));
    List<TraitRecord> records = new ArrayList<>();
    for (TraitRecord record : known) if (!gone.contains(record.id())) records.add(record);
    records.addAll(
        list(
            "select * from records where revision_from <= ? and revision_from > "
                + since
                + " and (revision_to is null or revision_to > "
                + revision
                + ")",
            StoredEvidence::record));
    return records;
  }

  /** The statement in a row of {@code records}, whatever its standing. */
  public static TraitRecord record(ResultSet r) throws SQLException {
    return new TraitRecord(
        r.getString("id"),
        subject(r),
        r.getString("trait"),
        value(r),
        Method.of(r.getString("method")),
        r.getString("source"),
        r.getString("locator"),
        context(r),
        r.getString("note"));
  }

  private static Subject subject(ResultSet r) throws SQLException {
    Crop crop = Crop.of(r.getString("crop"));
    return switch (r.getString("subject")) {
      case "stock" -> new Subject.StockIn(crop, r.getString("stock"));
      case "variety" -> new Subject.OfVariety(crop, r.getString("variety"));
      default ->
          new Subject.Pairing(
              crop,
              r.getString("stock"),
              r.getString("variety"),
              constant(Subject.Pairing.Reach.class, r.getString("reach")));
    };
  }

  private static Value value(ResultSet r) throws SQLException {
    String level = r.getString("level");
    if (level != null) return new Value.Level(level);
    String name = r.getString("value_name");
    if (name != null) return new Value.Name(name);
    Double low = r.getObject("value_low", Double.class);
    Double high = r.getObject("value_high", Double.class);
    return low != null && low.equals(high) ? new Value.Quantity(low) : new Value.Range(low, high);
  }

  private static Context context(ResultSet r) throws SQLException {
    String spread = r.getString("spread_kind");
    return new Context(
        r.getString("trial"),
        r.getString("site"),
        r.getString("scion"),
        whole(r, "planted_year"),
        whole(r, "measured_year"),
        whole(r, "trees"),
        spread == null
            ? null
            : new Context.Spread(Context.Spread.Kind.valueOf(spread), r.getDouble("spread_value")),
        r.getString("interstem"),
        whole(r, "age_years"),
        r.getString("relative_to"));
  }

  private static @Nullable Integer whole(ResultSet r, String column) throws SQLException {
    return r.getObject(column, Integer.class);
  }

  private static <E extends Enum<E>> E constant(Class<E> type, String word) {
    return Enum.valueOf(type, word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  private interface Make<T> {
    T of(ResultSet row) throws SQLException;
  }

  /** Runs a query whose one parameter is the revision. */
  private <T> List<T> list(String sql, Make<T> make) throws SQLException {
    try (PreparedStatement query = connection.prepareStatement(sql)) {
      query.setFetchSize(FETCH_ROWS);
      query.setLong(1, revision);
      try (ResultSet rows = query.executeQuery()) {
        List<T> list = new ArrayList<>();
        while (rows.next()) list.add(make.of(rows));
        return list;
      }
    }
  }

  private Map<String, List<String>> strings(String sql) throws SQLException {
    Map<String, List<String>> map = new HashMap<>();
    for (String[] pair : list(sql, r -> new String[] {r.getString(1), r.getString(2)}))
      map.computeIfAbsent(pair[0], k -> new ArrayList<>()).add(pair[1]);
    return map;
  }
}
