package org.understock.pollination;

import java.util.List;
import org.understock.evidence.Grade;
import org.understock.wording.Sentence;

/**
 * Whether a variety needs another one's pollen, and on what ground.
 *
 * @param need the most probable answer
 * @param chanceNeeded chance that it bears no crop with its own pollen, 0 to 1
 * @param partnerWanted true when a planting should hold a partner: it is needed, or the variety
 *     sets only in part and its crop is one that as a rule needs a partner, or nothing is known and
 *     a partner is as likely needed as not
 * @param grade of the evidence; D for a rule about the crop
 * @param text for people
 * @param records ids of the records behind it; empty when it rests on a rule about the crop
 * @param sources ids of the sources of the crop rule, where it rests on that
 */
public record PartnerNeed(
    PollenNeed need,
    double chanceNeeded,
    boolean partnerWanted,
    Grade grade,
    Sentence text,
    List<String> records,
    List<String> sources) {
  public PartnerNeed {
    records = List.copyOf(records);
    sources = List.copyOf(sources);
  }
}
