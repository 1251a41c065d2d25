package org.understock.evidence;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * One text for one content: what record ids and revision digests are made of. Every field is
 * written as {@code name=value}, one to a line, absent fields left out, line ends and backslashes
 * escaped, numbers in plain decimal notation without trailing zeros. Changing this text changes
 * every id and digest, so it is fixed.
 */
public final class Canonical {
  private Canonical() {}

  /** Canonical text of a statement, without its id. */
  public static String text(RecordCheck.Draft draft) {
    Lines lines = new Lines("record");
    subject(draft.subject(), lines);
    lines
        .add("trait", draft.trait())
        .add("value", value(draft.value()))
        .add("method", draft.method().id());
    lines.add("source", draft.source()).add("locator", draft.locator());
    Context c = draft.context();
    lines
        .add("trial", c.trial())
        .add("site", c.site())
        .add("scion", c.scion())
        .add("planted", c.plantedYear())
        .add("measured", c.measuredYear());
    lines
        .add("trees", c.trees())
        .add("interstem", c.interstem())
        .add("age", c.ageYears())
        .add("relative-to", c.relativeTo());
    if (c.spread() != null)
      lines.add("spread", c.spread().kind() + " " + number(c.spread().value()));
    return lines.add("note", draft.note().isEmpty() ? null : draft.note()).toString();
  }

  public static String text(TraitRecord r) {
    return text(
        new RecordCheck.Draft(
            r.subject(),
            r.trait(),
            r.value(),
            r.method(),
            r.source(),
            r.locator(),
            r.context(),
            r.note()));
  }

  public static String text(Source s) {
    return new Lines("source")
        .add("id", s.id())
        .add("kind", s.kind())
        .add("title", s.title())
        .add("authors", s.authorsOrBody())
        .add("year", s.year())
        .add("publication", s.publication())
        .add("doi", s.doiOrIsbn())
        .add("url", s.url())
        .add("note", s.note())
        .add("origin", s.origin())
        .toString();
  }

  public static String text(Stock s) {
    Lines lines =
        new Lines("stock")
            .add("id", s.id())
            .add("name", s.name())
            .add("kind", s.kind())
            .add("clone-of", s.cloneOf());
    s.crops().stream().sorted().forEach(crop -> lines.add("crop", crop));
    s.synonyms().stream().sorted().forEach(name -> lines.add("synonym", name));
    return lines.toString();
  }

  public static String text(Variety v) {
    Lines lines =
        new Lines("variety").add("id", v.id()).add("crop", v.crop()).add("name", v.name());
    v.synonyms().stream().sorted().forEach(name -> lines.add("synonym", name));
    return lines.toString();
  }

  public static String text(Trait t) {
    Lines lines =
        new Lines("trait")
            .add("id", t.id())
            .add("name", t.name())
            .add("definition", t.definition())
            .add("scale", t.scale());
    t.subjects().stream().sorted().forEach(subject -> lines.add("subject", subject));
    lines.add("unit", t.unit()).add("min", number(t.min())).add("max", number(t.max()));
    t.levels().forEach(level -> lines.add("level", level));
    return lines.toString();
  }

  public static String text(Ordering o) {
    return new Lines("ordering")
        .add("source", o.source())
        .add("trial", o.trial())
        .add("crop", o.crop())
        .add("scion", o.scion())
        .add("site", o.site())
        .add("trait", o.trait())
        .add("group", o.group())
        .add("stock", o.stock())
        .add("locator", o.locator())
        .add("note", o.note())
        .toString();
  }

  /**
   * Id of a record: {@code r-} and the first 16 hexadecimal digits of the SHA-256 of its canonical
   * text.
   */
  public static String id(RecordCheck.Draft draft) {
    return "r-" + key(text(draft));
  }

  /**
   * Id for a statement whose own id is taken by an older record of the same content, or by one that
   * was amended.
   *
   * @param occurrence 2 and up
   */
  public static String id(TraitRecord record, int occurrence) {
    return "r-" + key(text(record) + "\noccurrence=" + occurrence);
  }

  /**
   * What tells two statements apart: the first 16 hexadecimal digits of the SHA-256 of the
   * canonical text.
   */
  public static String key(TraitRecord record) {
    return key(text(record));
  }

  private static String key(String text) {
    return sha256(text).substring(0, 16);
  }

  /** A value in words: {@code 3.5}, {@code 2..3}, {@code ..9.1}, or the level or name itself. */
  public static String value(Value value) {
    if (value instanceof Value.Quantity q) return number(q.value());
    if (value instanceof Value.Range r)
      return (r.low() == null ? "" : number(r.low()))
          + ".."
          + (r.high() == null ? "" : number(r.high()));
    if (value instanceof Value.Level l) return l.level();
    return ((Value.Name) value).name();
  }

  /** Plain decimal notation of the shortest decimal that reads back as the same double. */
  public static String number(double value) {
    if (!Double.isFinite(value)) return Double.toString(value);
    BigDecimal plain = new BigDecimal(Double.toString(value));
    return plain.signum() == 0 ? "0" : plain.stripTrailingZeros().toPlainString();
  }

  /** Hexadecimal SHA-256 of a text in UTF-8. */
  public static String sha256(String text) {
    return HexFormat.of().formatHex(digest().digest(text.getBytes(StandardCharsets.UTF_8)));
  }

  /**
   * Digest of a revision: SHA-256 over the digest of the revision before and the canonical texts of
   * all that is accepted as of this one, in order of their ids. Whoever holds the content can
   * compute it again; a change anywhere in the history changes every later digest.
   *
   * @param previous digest of the revision before; empty for the first
   * @return 64 hexadecimal digits
   */
  public static String digest(String previous, Evidence evidence, List<Ordering> orderings) {
    MessageDigest digest = digest();
    feed(digest, previous);
    evidence.traits().all().forEach(t -> feed(digest, text(t)));
    evidence.plants().stocks().forEach(s -> feed(digest, text(s)));
    evidence.plants().varieties().forEach(v -> feed(digest, text(v)));
    evidence.sources().values().stream()
        .sorted(Comparator.comparing(Source::id))
        .forEach(s -> feed(digest, text(s)));
    orderings.stream().map(Canonical::text).sorted().forEach(text -> feed(digest, text));
    for (TraitRecord record : evidence.records()) {
      feed(digest, record.id());
      feed(digest, text(record));
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  /**
   * Digest of the content alone, whatever its history: SHA-256 over the sorted canonical texts of
   * traits, plants, sources and records. Two stores that hold the same evidence have the same one,
   * whoever entered it, in which order, under which ids.
   *
   * @return 64 hexadecimal digits
   */
  public static String contentDigest(Evidence evidence) {
    MessageDigest digest = digest();
    Stream.of(
            evidence.traits().all().stream().map(Canonical::text),
            evidence.plants().stocks().stream().map(Canonical::text),
            evidence.plants().varieties().stream().map(Canonical::text),
            evidence.sources().values().stream().map(Canonical::text),
            evidence.records().stream().map(Canonical::text))
        .flatMap(texts -> texts)
        .sorted()
        .forEach(text -> feed(digest, text));
    return HexFormat.of().formatHex(digest.digest());
  }

  private static void feed(MessageDigest digest, String text) {
    digest.update(text.getBytes(StandardCharsets.UTF_8));
    digest.update((byte) 0);
  }

  private static void subject(Subject subject, Lines lines) {
    lines.add("crop", subject.crop());
    if (subject instanceof Subject.StockIn s) {
      lines.add("stock", s.stock());
    } else if (subject instanceof Subject.OfVariety v) {
      lines.add("variety", v.variety());
    } else if (subject instanceof Subject.Pairing p) {
      lines.add("stock", p.stock()).add("variety", p.variety()).add("reach", p.reach());
    }
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  private static final class Lines {
    private final StringBuilder text;

    Lines(String kind) {
      text = new StringBuilder(kind);
    }

    Lines add(String name, @Nullable Object value) {
      if (value == null) return this;
      text.append('\n')
          .append(name)
          .append('=')
          .append(value.toString().replace("\\", "\\\\").replace("\n", "\\n").replace("\r", "\\r"));
      return this;
    }

    @Override
    public String toString() {
      return text.toString();
    }
  }
}
