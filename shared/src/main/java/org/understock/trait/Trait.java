package org.understock.trait;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One thing that can be said about a stock, a variety or a pairing. Traits are data (the starter
 * evidence's {@code traits.csv}); code refers to them by id only where it computes with them.
 *
 * @param id lower-case slug, such as {@code fire-blight}
 * @param name for people
 * @param definition what is measured or judged, in one or two sentences
 * @param subjects what the trait can be said of; fire blight, for one, of a stock and of a variety
 * @param scale how its values are expressed and pooled
 * @param unit unit of a quantity as the evidence files write it ({@code cm2}, {@code kg/tree});
 *     empty for levels and names
 * @param min lowest value that can be meant, for quantities
 * @param max highest value that can be meant, for quantities
 * @param levels the ordered levels, lowest first; empty unless the scale is {@link Scale#LEVELS}
 */
public record Trait(
    String id,
    String name,
    String definition,
    Set<SubjectKind> subjects,
    Scale scale,
    String unit,
    double min,
    double max,
    List<String> levels) {

  /** What a trait belongs to. */
  public enum SubjectKind {
    STOCK,
    VARIETY,
    PAIRING
  }

  /** How values of a trait are expressed, and with that how they are pooled. */
  public enum Scale {
    /**
     * Means of a trial, comparable only inside it: pooled as log ratios to the crop's reference
     * stock.
     */
    CONTRAST,
    /** A positive quantity, single or as a range: pooled on the log scale by inverse variance. */
    QUANTITY,
    /**
     * A quantity that may be negative or has no natural zero (a temperature, a day): pooled on its
     * own scale.
     */
    INTERVAL,
    /** Ordered levels: pooled as a Dirichlet distribution. */
    LEVELS,
    /**
     * Words without an order (alleles, growth habit): the best-supported one, the others kept
     * beside it.
     */
    NAMES
  }

  public Trait {
    subjects = Set.copyOf(subjects);
    levels = List.copyOf(levels);
    if ((scale == Scale.LEVELS) == levels.isEmpty())
      throw new Refusal.Conflict(
          "levels", "trait " + id + ": levels belong to the scale LEVELS and only to it");
    if (!(min <= max))
      throw new Refusal.OutOfRange("min", min, "at most max (" + max + ") for trait " + id);
  }

  /** Index of a level, 0 = lowest, or -1 when the word is not one of this trait's levels. */
  public int levelIndex(@Nullable String level) {
    return level == null ? -1 : levels.indexOf(level);
  }
}
