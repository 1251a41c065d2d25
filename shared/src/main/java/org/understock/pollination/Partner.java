package org.understock.pollination;

import org.understock.plant.Variety;

/**
 * A variety as pollen partner of another.
 *
 * @param variety the one that gives pollen
 * @param pair the verdict in that direction
 */
public record Partner(Variety variety, PairVerdict pair) {}
