package org.understock.climate;

import java.util.Arrays;
import org.understock.trait.Refusal;

/**
 * Safe winter chill: the amount that nine of ten winters exceed (Luedeling and Brown 2011), the
 * 10th percentile over winters.
 *
 * <p>Quantile by linear interpolation between ordered values, the smallest at 0 and the largest at
 * 1 (type 7 of Hyndman and Fan 1996, what R does unasked). With fewer than ten winters it leans on
 * the two poorest alone.
 */
public final class SafeChill {
  private static final double SHARE = 0.1;

  private SafeChill() {}

  /**
   * @param chill of one or more winters, in any order
   */
  public static double of(double[] chill) {
    return quantile(chill, SHARE);
  }

  /** Quantile of one or more values, type 7. */
  public static double quantile(double[] values, double share) {
    if (values.length == 0) throw new Refusal.OutOfRange("winters", 0, "1 or more");
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double at = (sorted.length - 1) * share;
    int below = (int) Math.floor(at);
    int above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
  }
}
