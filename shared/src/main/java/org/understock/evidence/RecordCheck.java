package org.understock.evidence;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Names;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.trait.PlainText;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;
import org.understock.trait.Trait.Scale;
import org.understock.trait.Trait.SubjectKind;
import org.understock.trait.Traits;
import org.understock.trait.Value;

/**
 * The one way to make a {@link TraitRecord}. Whatever door a statement comes through, it meets
 * these checks: known subject, trait and source, a value that the trait's scale and range allow, a
 * locator, plausible years, a usable spread.
 *
 * <p>The fields named in refusals are {@code subject}, {@code trait}, {@code value}, {@code
 * method}, {@code source}, {@code locator}, {@code note} and {@code context.*}.
 */
public final class RecordCheck {
  /**
   * Source of statements that nobody has looked up; only {@link Method#FROM_MEMORY} goes with it.
   */
  public static final String MEMORY = "memory";

  /**
   * Source of what the trade knows without a publication; only {@link Method#COMMON_PRACTICE} goes
   * with it.
   */
  public static final String COMMON_PRACTICE = "common-practice";

  /** Traits whose value is a difference from a named variety. */
  public static final Set<String> RELATIVE = Set.of("bloom-day", "harvest-offset");

  private static final int EARLIEST_YEAR = 1800;
  private static final int LATEST_YEAR = 2100;
  private static final int LONGEST_TEXT = 2000;

  /*
   * Allele names as printed: number series (S1, S101), letter series (Sc, Sk), a prime for a pollen-part mutant (S4'), m, m2 and sm for
   * mutants, "null" for a lost one; a question mark at the end when only one allele is known.
   */
  private static final Pattern ALLELES =
      Pattern.compile("(S(\\d{1,3}(sm|m\\d?)?'?|null|[a-z]))+\\??");

  private static final Pattern ONE_NAME = Pattern.compile("[^,]{1,80}");

  private static final Map<String, Pattern> NAME_FORMS =
      Map.of("s-alleles", ALLELES, "ploidy", Pattern.compile("[2-8]"));
  private static final Map<String, String> FORM_WORDS =
      Map.of(
          "s-alleles",
          "alleles such as S3S4', S101S102 or S24?",
          "ploidy",
          "a number of chromosome sets from 2 to 8");

  private final Traits traits;
  private final Plants plants;
  private final Map<String, Source> sources;

  public RecordCheck(Traits traits, Plants plants, Map<String, Source> sources) {
    this.traits = traits;
    this.plants = plants;
    this.sources = Map.copyOf(sources);
  }

  /**
   * A statement that has not been checked. Ids, not spellings, name the subject, the trait and the
   * source.
   */
  public record Draft(
      Subject subject,
      String trait,
      Value value,
      Method method,
      String source,
      String locator,
      Context context,
      String note) {}

  /**
   * The record, with the id that its content gives it. @throws Refusal the first thing that is
   * wrong
   */
  public TraitRecord make(Draft draft) {
    List<Refusal> problems = problems(draft);
    if (!problems.isEmpty()) throw problems.get(0);
    return new TraitRecord(
        Canonical.id(draft),
        draft.subject(),
        draft.trait(),
        draft.value(),
        draft.method(),
        draft.source(),
        draft.locator(),
        draft.context(),
        draft.note());
  }

  /** Everything that is wrong with a statement; empty when it can become a record. */
  public List<Refusal> problems(Draft draft) {
    List<Refusal> problems = new ArrayList<>();
    subject(draft.subject(), problems);
    Trait trait = traits.find(draft.trait()).orElse(null);
    if (trait == null) {
      problems.add(
          new Refusal.Unknown(
              "trait",
              draft.trait(),
              Names.closest(draft.trait(), traits.all().stream().map(Trait::id).toList(), 3)));
    } else {
      if (!trait.subjects().contains(kind(draft.subject()))) {
        problems.add(
            new Refusal.Conflict(
                "trait",
                "trait "
                    + trait.id()
                    + " belongs to a "
                    + words(trait.subjects())
                    + ", not to a "
                    + word(kind(draft.subject()))));
      }
      value(trait, draft.value(), problems);
    }
    source(draft, problems);
    context(draft, problems);
    return problems;
  }

  private void subject(Subject subject, List<Refusal> problems) {
    if (subject instanceof Subject.StockIn s) {
      stock(s.stock(), problems);
    } else if (subject instanceof Subject.OfVariety v) {
      variety(v.variety(), v, problems);
    } else if (subject instanceof Subject.Pairing p) {
      stock(p.stock(), problems);
      if ((p.variety() == null) == (p.reach() == Subject.Pairing.Reach.NAMED)) {
        problems.add(
            new Refusal.Conflict(
                "subject", "a pairing names a variety, or says how many varieties it means"));
      }
      if (p.variety() != null) variety(p.variety(), p, problems);
    }
  }

  private void stock(String id, List<Refusal> problems) {
    if (plants.stock(id).isEmpty())
      problems.add(new Refusal.Unknown("subject", id, plants.nearestStocks(id)));
  }

  private void variety(String id, Subject subject, List<Refusal> problems) {
    Variety variety = plants.variety(id).orElse(null);
    if (variety == null) {
      problems.add(new Refusal.Unknown("subject", id, plants.nearestVarieties(id)));
    } else if (variety.crop() != subject.crop()) {
      problems.add(
          new Refusal.Conflict(
              "subject",
              "variety " + id + " is of the crop " + variety.crop() + ", not " + subject.crop()));
    }
  }

  private static void value(Trait trait, Value value, List<Refusal> problems) {
    switch (trait.scale()) {
      case LEVELS -> {
        String level = value instanceof Value.Level l ? l.level() : null;
        if (trait.levelIndex(level) < 0)
          problems.add(new Refusal.Unknown("value", text(value), trait.levels()));
      }
      case NAMES -> {
        String name = value instanceof Value.Name n ? n.name() : null;
        Pattern form = NAME_FORMS.getOrDefault(trait.id(), ONE_NAME);
        if (name == null || name.isBlank() || !form.matcher(name).matches()) {
          problems.add(
              new Refusal.OutOfRange(
                  "value",
                  text(value),
                  FORM_WORDS.getOrDefault(
                      trait.id(), "one name of at most 80 characters, without a comma")));
        } else {
          text("value", name, problems);
        }
      }
      case CONTRAST, QUANTITY, INTERVAL -> {
        if (value instanceof Value.Quantity q) {
          number(trait, q.value(), problems);
        } else if (value instanceof Value.Range r && trait.scale() != Scale.CONTRAST) {
          if (r.low() != null && r.low().equals(r.high()))
            problems.add(
                new Refusal.OutOfRange(
                    "value", text(value), "a range of two values, or one value"));
          if (r.low() != null) number(trait, r.low(), problems);
          if (r.high() != null) number(trait, r.high(), problems);
        } else {
          problems.add(new Refusal.OutOfRange("value", text(value), "a number in " + trait.unit()));
        }
      }
    }
  }

  private static void number(Trait trait, double value, List<Refusal> problems) {
    if (!(value >= trait.min() && value <= trait.max())) {
      problems.add(
          new Refusal.OutOfRange(
              "value",
              value,
              "between "
                  + Canonical.number(trait.min())
                  + " and "
                  + Canonical.number(trait.max())
                  + " "
                  + trait.unit()));
    }
  }

  private void source(Draft draft, List<Refusal> problems) {
    if (!sources.containsKey(draft.source())) {
      problems.add(
          new Refusal.Unknown(
              "source",
              draft.source(),
              Names.closest(draft.source(), sources.keySet().stream().sorted().toList(), 3)));
    }
    tied(MEMORY, Method.FROM_MEMORY, draft, problems);
    tied(COMMON_PRACTICE, Method.COMMON_PRACTICE, draft, problems);
    if (draft.locator().isBlank()) {
      problems.add(
          new Refusal.OutOfRange(
              "locator",
              "'" + draft.locator() + "'",
              "the place in the source, such as a table or page"));
    } else {
      text("locator", draft.locator(), problems);
    }
    text("note", draft.note(), problems);
  }

  private static void tied(String source, Method method, Draft draft, List<Refusal> problems) {
    if (draft.source().equals(source) != (draft.method() == method)) {
      problems.add(
          new Refusal.Conflict(
              "method",
              "the method "
                  + method.id()
                  + " and the source "
                  + source
                  + " go together and with nothing else"));
    }
  }

  /** What is said in words must come back unchanged from every file and table. */
  private static void text(String field, String text, List<Refusal> problems) {
    try {
      PlainText.check(field, text, LONGEST_TEXT);
    } catch (Refusal refusal) {
      problems.add(refusal);
    }
  }

  private static void word(String field, @Nullable String text, List<Refusal> problems) {
    if (text == null) return;
    if (text.isBlank()) {
      problems.add(new Refusal.OutOfRange(field, "empty", "given or left out"));
    } else {
      text(field, text, problems);
    }
  }

  private static void context(Draft draft, List<Refusal> problems) {
    Context c = draft.context();
    word("context.trial", c.trial(), problems);
    word("context.site", c.site(), problems);
    word("context.scion", c.scion(), problems);
    word("context.interstem", c.interstem(), problems);
    word("context.relativeTo", c.relativeTo(), problems);
    year("context.plantedYear", c.plantedYear(), problems);
    year("context.measuredYear", c.measuredYear(), problems);
    if (c.plantedYear() != null && c.measuredYear() != null && c.measuredYear() < c.plantedYear()) {
      problems.add(
          new Refusal.OutOfRange(
              "context.measuredYear",
              c.measuredYear(),
              "the planting year " + c.plantedYear() + " or later"));
    }
    if (c.trees() != null && c.trees() < 1)
      problems.add(new Refusal.OutOfRange("context.trees", c.trees(), "1 or more"));
    if (c.ageYears() != null && (c.ageYears() < 0 || c.ageYears() > 300))
      problems.add(new Refusal.OutOfRange("context.ageYears", c.ageYears(), "between 0 and 300"));
    if (c.spread() != null && !(c.spread().value() > 0 && Double.isFinite(c.spread().value()))) {
      problems.add(new Refusal.OutOfRange("context.spread.value", c.spread().value(), "above 0"));
    }
    if (RELATIVE.contains(draft.trait()) && c.relativeTo() == null) {
      problems.add(
          new Refusal.Conflict(
              "context.relativeTo",
              "trait " + draft.trait() + " is counted from another variety, which must be named"));
    }
    if (draft.trait().equals("yield-at-age") && c.ageYears() == null) {
      problems.add(
          new Refusal.Conflict("context.ageYears", "trait yield-at-age needs the age of the tree"));
    }
  }

  private static void year(String field, @Nullable Integer year, List<Refusal> problems) {
    if (year != null && (year < EARLIEST_YEAR || year > LATEST_YEAR)) {
      problems.add(
          new Refusal.OutOfRange(field, year, "between " + EARLIEST_YEAR + " and " + LATEST_YEAR));
    }
  }

  private static SubjectKind kind(Subject subject) {
    if (subject instanceof Subject.StockIn) return SubjectKind.STOCK;
    return subject instanceof Subject.OfVariety ? SubjectKind.VARIETY : SubjectKind.PAIRING;
  }

  private static String word(SubjectKind kind) {
    return kind.name().toLowerCase(java.util.Locale.ROOT);
  }

  private static String words(Set<SubjectKind> kinds) {
    return String.join(" or ", kinds.stream().sorted().map(RecordCheck::word).toList());
  }

  private static String text(Value value) {
    return Canonical.value(value);
  }
}
