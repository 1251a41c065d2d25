package org.understock.growth;

import java.util.Arrays;
import org.apache.commons.numbers.arrays.Selection;

/**
 * The fixed sample of trees going through its years: what each of them bears in a year, and the
 * percentiles of it over the trees.
 */
final class TreeYears {
  /*
   * An answer tells twenty years and more of every pairing that it shows, so this is asked for often. Sorting the trees of each year took half of a
   * short answer's time, picking three ranks out by a partial sort a quarter. Here the crops are counted into narrow bins first, and only the three
   * bins in which the ranks lie are looked into: the same values to the last bit. The crops themselves are worked out in two passes of one clamp
   * each, which are compiled to vector instructions.
   */

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

  TreeYears(Expectations tree) {
    double most = 0;
    for (int i = 0; i < Trees.COUNT; i++) {
      Expectations.Course course =
          tree.course(Trees.score(i, 0), Trees.score(i, 1), Trees.score(i, 2));
      first[i] = course.firstCropYear();
      pace[i] = 1 / (course.fullCropYear() - course.firstCropYear());
      fall[i] = Expectations.DECLINE / course.lifeYears();
      full[i] = course.matureYieldKg();
      earliest = Math.min(earliest, first[i]);
      latest = Math.max(latest, first[i]);
      most = Math.max(most, full[i]);
    }
    lowest = Double.doubleToRawLongBits(most) - ((long) DOUBLINGS << MANTISSA_BITS);
  }

  /** Percentiles of one year by itself. */
  YearYield year(int year) {
    if (year < earliest - 0.5) return new YearYield(year, 0, 0, 0);
    rise(year, first, pace, rise);
    crop(year, rise, fall, full, crop);
    if (year < latest - 0.5)
      for (int i = 0; i < Trees.COUNT; i++) if (year < first[i] - 0.5) crop[i] = 0;
    count();
    double[] found = new double[RANKS.length];
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
    return new YearYield(year, found[0], found[1], found[2]);
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
