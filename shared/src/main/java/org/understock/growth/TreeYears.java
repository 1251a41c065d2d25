package org.understock.growth;

import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.commons.numbers.arrays.Selection;

/**
 * The fixed sample of trees going through its years: the percentiles of what each bears in a year,
 * as parts of the middle full-grown crop.
 */
final class TreeYears {
  /*
   * An answer tells twenty years and more of every pairing that it shows, so this is asked for often. Sorting the trees of each year took half of a
   * short answer's time, picking three ranks out by a partial sort a quarter. Here the crops are counted into narrow bins first, and only the three
   * bins in which the ranks lie are looked into: the same values. The crops themselves are worked out in two passes of one clamp each, which are
   * compiled to vector instructions.
   *
   * Courses are kept, because they come back: what a place does to a tree's size and crop only multiplies the crop, and few places move its times.
   */

  /** Courses kept, some 1 to 2 KB each. */
  private static final int KEPT = 2_000;

  private static final Map<Course, double[][]> LATELY =
      Collections.synchronizedMap(
          new LinkedHashMap<>(16, 0.75f, true) {
            @Override
            protected boolean removeEldestEntry(Map.Entry<Course, double[][]> eldest) {
              return size() > KEPT;
            }
          });

  /** Places of the percentiles among the trees in order; there are as many as make them whole. */
  private static final int[] RANKS = {rank(0.1), rank(0.5), rank(0.9)};

  /** Bins for a doubling of the crop, as a power of two; crops under the lowest share the first. */
  private static final int BINS_A_DOUBLING = 5;

  private static final int DOUBLINGS = 9;
  private static final int BINS = (DOUBLINGS << BINS_A_DOUBLING) + 1;
  private static final int MANTISSA_BITS = 52;

  private final double[] first = new double[Trees.COUNT];
  private final double[] pace = new double[Trees.COUNT];
  private final double[] fall = new double[Trees.COUNT];
  private final double[] full = new double[Trees.COUNT];
  private double earliest = Double.POSITIVE_INFINITY;
  private double latest;
  private final long lowest;

  private final double[] rise = new double[Trees.COUNT];
  private final double[] crop = new double[Trees.COUNT];
  private final double[] inside = new double[Trees.COUNT];
  private final int[] bins = new int[Trees.COUNT];
  private final int[] counts = new int[BINS];

  /**
   * All on which the shape of a life of crops hangs.
   *
   * @param yieldSigma spread of the full-grown crop; its middle only multiplies
   */
  record Course(LogNormal firstCrop, LogNormal fullCrop, LogNormal life, double yieldSigma) {}

  private TreeYears(Course course) {
    double most = 0;
    for (int i = 0; i < Trees.COUNT; i++) {
      Expectations.Course tree =
          Expectations.course(
              course.firstCrop.at(Trees.score(i, 0)),
              course.fullCrop.at(Trees.score(i, 0)),
              course.life.at(Trees.score(i, 1)),
              Math.exp(course.yieldSigma * Trees.score(i, 2)));
      first[i] = tree.firstCropYear();
      pace[i] = 1 / (tree.fullCropYear() - tree.firstCropYear());
      fall[i] = Expectations.DECLINE / tree.lifeYears();
      full[i] = tree.matureYieldKg();
      earliest = Math.min(earliest, first[i]);
      latest = Math.max(latest, first[i]);
      most = Math.max(most, full[i]);
    }
    lowest = Double.doubleToRawLongBits(most) - ((long) DOUBLINGS << MANTISSA_BITS);
  }

  /**
   * By year, the first at least as many as asked for: the 10th, 50th and 90th percentile of the
   * crop, as parts of the middle full-grown one.
   */
  static double[][] of(Course course, int years) {
    double[][] known = LATELY.get(course);
    if (known != null && known.length >= years) return known;
    double[][] parts = counted(course, years);
    LATELY.put(course, parts);
    return parts;
  }

  /** The same, worked out anew and not kept. */
  static double[][] counted(Course course, int years) {
    TreeYears trees = new TreeYears(course);
    double[][] parts = new double[years][];
    for (int year = 1; year <= years; year++) parts[year - 1] = trees.year(year);
    return parts;
  }

  private double[] year(int year) {
    double[] found = new double[RANKS.length];
    if (year < earliest - 0.5) return found;
    rise(year, first, pace, rise);
    crop(year, rise, fall, full, crop);
    if (year < latest - 0.5)
      for (int i = 0; i < Trees.COUNT; i++) if (year < first[i] - 0.5) crop[i] = 0;
    count();
    int next = 0;
    int below = 0;
    for (int bin = 0; next < RANKS.length; bin++) {
      int through = below + counts[bin];
      while (next < RANKS.length && RANKS[next] < through) {
        found[next] = within(bin, RANKS[next] - below);
        next++;
      }
      below = through;
    }
    return found;
  }

  /** With {@link #crop} the same as {@link Expectations#share}, without its branches. */
  private static void rise(double year, double[] first, double[] pace, double[] into) {
    for (int i = 0; i < Trees.COUNT; i++) {
      double t = Math.max(0, Math.min(1, (year - first[i]) * pace[i]));
      into[i] = Expectations.FIRST_SHARE + (1 - Expectations.FIRST_SHARE) * t * t * (3 - 2 * t);
    }
  }

  private static void crop(
      double year, double[] rise, double[] fall, double[] full, double[] into) {
    double none = 1 + Expectations.DECLINE * Expectations.DECLINE_FROM;
    for (int i = 0; i < Trees.COUNT; i++)
      into[i] = full[i] * rise[i] * Math.max(0, Math.min(1, none - year * fall[i]));
  }

  /** Counts the crops into bins by their leading digits, which have the order of the crops. */
  private void count() {
    Arrays.fill(counts, 0);
    for (int i = 0; i < Trees.COUNT; i++) {
      long above = Math.max(0, Double.doubleToRawLongBits(crop[i]) - lowest);
      int bin = (int) (above >>> (MANTISSA_BITS - BINS_A_DOUBLING));
      bins[i] = bin;
      counts[bin]++;
    }
  }

  /** The crop of a rank within a bin. */
  private double within(int bin, int rank) {
    int count = counts[bin];
    for (int i = 0, n = 0; n < count; i++) if (bins[i] == bin) inside[n++] = crop[i];
    Selection.select(inside, 0, count, rank);
    return inside[rank];
  }

  private static int rank(double p) {
    return (int) Math.floor(p * Trees.COUNT - 0.5);
  }
}
