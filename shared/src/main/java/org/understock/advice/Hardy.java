package org.understock.advice;

import java.util.List;

/**
 * The air temperature that a stock or variety bears in midwinter.
 *
 * @param drawsC draws of it, °C
 * @param known whether anything is on record of this very subject
 */
record Hardy(double[] drawsC, boolean known, List<String> records) {
  static Hardy of(String subject, double meanC, double sdC, boolean known, List<String> records) {
    double[] x = Draws.normal("hardiness of " + subject);
    for (int d = 0; d < x.length; d++) x[d] = meanC + sdC * x[d];
    return new Hardy(x, known, List.copyOf(records));
  }

  double meanC() {
    return java.util.Arrays.stream(drawsC).average().orElseThrow();
  }
}
