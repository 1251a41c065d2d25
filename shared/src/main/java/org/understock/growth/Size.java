package org.understock.growth;

import java.util.List;
import org.understock.evidence.Grade;

/**
 * Size of a tree as a fraction of the crop's standard (seedling) tree.
 *
 * @param fraction 1 = standard; above 0
 * @param sdLog standard deviation of its natural log
 * @param basis OWN: percentages or trunk areas of the stock; SIZE: read back from its heights;
 *     CROP: neither, what is usual for its kind
 */
record Size(double fraction, double sdLog, List<String> records, Grade grade, Part.Basis basis) {

  static Size usual(double fraction, double sdLog) {
    return new Size(fraction, sdLog, List.of(), Grade.D, Part.Basis.CROP);
  }

  LogNormal value() {
    return new LogNormal(Math.log(fraction), sdLog);
  }

  /**
   * The size on the scale of the growth curves, on which log height, spread, crop and years come
   * out as straight lines: fraction − 1, so 0 for the standard tree.
   *
   * <p>Published percentages of standard fall much faster than heights do near the top of the scale
   * and slower at its foot: against heights in the extension tables a line in the percentage leaves
   * about half the spread that a line in its logarithm leaves. Above standard the percentages are
   * trunk areas of over-vigorous stocks; a tree of 1.35 times the trunk area is about a tenth
   * taller (trunk area grows as the third power of height: geometric similarity), hence the flat
   * continuation.
   */
  double score() {
    return fraction <= 1 ? fraction - 1 : Math.log(fraction) / 6;
  }

  /** Standard deviation of {@link #score()}. */
  double scoreSd() {
    return fraction <= 1 ? fraction * sdLog : sdLog / 6;
  }
}
