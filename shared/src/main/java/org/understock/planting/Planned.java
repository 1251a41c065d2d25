package org.understock.planting;

import org.jspecify.annotations.Nullable;
import org.understock.advice.Pairing;

/**
 * One pairing of the plan with the room it takes.
 *
 * @param share of the trees that are no partners; null for a pollen partner
 * @param inRowM distance in the row, in m
 * @param rowM distance between rows, in m
 * @param widthM width of the crown across the row, in m
 */
record Planned(Pairing pairing, @Nullable Double share, double inRowM, double rowM, double widthM) {
  boolean isPartner() {
    return share == null;
  }

  String names() {
    return pairing.names();
  }
}
