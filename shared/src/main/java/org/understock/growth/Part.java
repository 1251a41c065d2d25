package org.understock.growth;

import java.util.List;
import org.understock.evidence.Grade;

/**
 * One quantity of a stock's growth, with what stands behind it.
 *
 * @param value at a middling site under a middling variety; its spread covers places, statements and what is not known
 * @param records ids of the records that it leans on most: the stock's own, or else those that give its size
 * @param grade of those records
 * @param basis how it was come by
 */
public record Part(LogNormal value, List<String> records, Grade grade, Basis basis) {

  /** How a quantity was come by, surest first. */
  public enum Basis {
    /** From records about this very stock and trait. */
    OWN,
    /** No such records; taken from the stock's size and what the crop's other stocks do at that size. */
    SIZE,
    /** Neither; taken from what is usual in the crop, and therefore wide. */
    CROP
  }

  public Part {
    records = List.copyOf(records);
  }

  /** Whether an answer that leans on this should say that the evidence is thin. */
  public boolean thin() {
    return basis == Basis.CROP;
  }
}
