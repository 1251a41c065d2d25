package org.understock.advice;

/**
 * A subject's share of the standard scores by which a pairing's size, times, yield and life are drawn; see {@link CropTables#STOCK_SHARE}.
 */
record Scores(double[] size, double[] time, double[] yield, double[] life) {

  static Scores of(String subject, double share) {
    return new Scores(scores("size " + subject, share), scores("time " + subject, share), scores("yield " + subject, share), scores("life " + subject, share));
  }

  private static double[] scores(String quantity, double share) {
    double[] z = Draws.normal(quantity);
    for (int d = 0; d < z.length; d++) z[d] *= share;
    return z;
  }
}
