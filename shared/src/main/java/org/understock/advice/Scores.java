package org.understock.advice;

/**
 * A subject's share of the standard scores by which a pairing's size, times, yield and life are
 * drawn; see {@link CropTables#STOCK_SHARE}.
 */
record Scores(double[] size, double[] time, double[] yield, double[] life) {

  static Scores of(String subject, double share) {
    return new Scores(
        scores("size " + subject, share),
        scores("time " + subject, share),
        scores("yield " + subject, share),
        scores("life " + subject, share));
  }

  Scores withSize(double[] size) {
    return new Scores(size, time, yield, life);
  }

  Scores withTime(double[] time) {
    return new Scores(size, time, yield, life);
  }

  Scores withYield(double[] yield) {
    return new Scores(size, time, yield, life);
  }

  Scores withLife(double[] life) {
    return new Scores(size, time, yield, life);
  }

  private static double[] scores(String quantity, double share) {
    double[] z = Draws.normal(quantity);
    for (int d = 0; d < z.length; d++) z[d] *= share;
    return z;
  }
}
