package org.understock.planting;

import java.util.Arrays;
import java.util.List;

/**
 * Places where trees stand, row by row and along each row. Filled from the first row on, with each
 * pair of neighbours in a row at the mean of their distances; the trees of a stretch lie in its
 * middle.
 */
final class Standing {
  final int size;
  final int[] row;
  final double[] across;
  final double[] along;

  /** First place of each row, and the size at the end; rows are counted from 0 here. */
  final int[] starts;

  private final Rows rows;

  private Standing(Rows rows, int size, int[] row, double[] across, double[] along) {
    this.rows = rows;
    this.size = size;
    this.row = Arrays.copyOf(row, size);
    this.across = Arrays.copyOf(across, size);
    this.along = Arrays.copyOf(along, size);
    int count = size == 0 ? 0 : row[size - 1];
    starts = new int[count + 1];
    for (int i = 0; i < size; i++) starts[row[i]] = i + 1; // after the row's last tree
    for (int r = 1; r <= count; r++) starts[r] = Math.max(starts[r], starts[r - 1]);
  }

  /**
   * As many of the sequence's trees as the rows hold.
   *
   * @param kinds kind of each tree in the order in which the rows are filled
   * @param inRowM distance in the row of each kind
   */
  static Standing fill(Rows rows, int[] kinds, double[] inRowM) {
    int[] row = new int[kinds.length];
    double[] across = new double[kinds.length];
    double[] along = new double[kinds.length];
    int n = 0;
    int lastRow = 0;
    int number = 0;
    List<Rows.Stretch> stretches = rows.stretches;
    for (int k = 0; k < stretches.size() && n < kinds.length; k++) {
      Rows.Stretch stretch = stretches.get(k);
      boolean sameRow = n > 0 && lastRow == stretch.row();
      double at =
          sameRow
              ? Math.max(stretch.from(), along[n - 1] + gap(inRowM, kinds[n - 1], kinds[n]))
              : stretch.from();
      int first = n;
      while (n < kinds.length && at <= stretch.to() + 1e-9) {
        if (n == first && !sameRow) number++;
        row[n] = number;
        across[n] = stretch.across();
        along[n] = at;
        n++;
        if (n < kinds.length) at += gap(inRowM, kinds[n - 1], kinds[n]);
      }
      if (n == first) continue;
      lastRow = stretch.row();
      double shift = Math.max(0, stretch.to() - along[n - 1]) / 2;
      for (int i = first; i < n; i++) along[i] += shift;
    }
    return new Standing(rows, n, row, across, along);
  }

  private static double gap(double[] inRowM, int one, int other) {
    return (inRowM[one] + inRowM[other]) / 2;
  }

  int rowCount() {
    return starts.length - 1;
  }

  Point place(int i) {
    return rows.place(across[i], along[i]);
  }

  /** Position in its row, from 1. */
  int position(int i) {
    return i - starts[row[i] - 1] + 1;
  }

  double distance(int i, int j) {
    double a = across[i] - across[j];
    double b = along[i] - along[j];
    return Math.sqrt(a * a + b * b);
  }
}
