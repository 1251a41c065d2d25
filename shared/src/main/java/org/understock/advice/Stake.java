package org.understock.advice;

import org.understock.evidence.Subject;

/**
 * What it would be worth to know one thing for certain: the expected value of partial perfect
 * information.
 *
 * @param points points of score by which the first place would on average be better if this were
 *     known; above 0
 * @param wouldChange chance that knowing it puts another pairing first, 0 to 1
 */
public record Stake(Subject subject, String trait, double points, double wouldChange) {}
