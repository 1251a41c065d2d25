package org.understock.growth;

import java.util.List;
import org.understock.evidence.Grade;

/**
 * One quantity of a stock's growth, with what stands behind it.
 *
 * @param value at a middling site under a middling variety; its spread covers places, statements
 *     and what is not known
 * @param placeSd standard deviation of the log that places add: the share of the spread that no
 *     further record takes away
 * @param records ids of the records that it leans on most: the stock's own, or else those that give
 *     its size
 * @param grade of those records
 * @param basis how it was come by
 */
public record Part(
    LogNormal value, double placeSd, List<String> records, Grade grade, Basis basis) {

  /** How a quantity was come by, surest first. */
  public enum Basis {
    /** From records about this very stock and trait. */
    OWN,
    /**
     * No such records; taken from the stock's size and what the crop's other stocks do at that
     * size.
     */
    SIZE,
    /** Neither; taken from what is usual in the crop, and therefore wide. */
    CROP
  }

  public Part {
    records = List.copyOf(records);
  }

  /** Standard deviation of the log of what is not known of the stock itself. */
  public double unknownSd() {
    return Math.sqrt(Math.max(0, value.sigma() * value.sigma() - placeSd * placeSd));
  }

  /** Whether an answer that leans on this should say that the evidence is thin. */
  public boolean thin() {
    return basis == Basis.CROP;
  }
}
