package org.understock.advice;

import org.jspecify.annotations.Nullable;

/**
 * A preference that takes part in one answer.
 *
 * @param rated how it is judged, when it rests on a stock's levels; null for those computed from
 *     growth, climate or pollination
 */
record Active(Criterion criterion, Bearing bearing, @Nullable Rated rated) {}
