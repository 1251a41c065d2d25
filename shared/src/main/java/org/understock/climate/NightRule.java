package org.understock.climate;

import org.understock.site.Word;

/** How the temperature falls from sunset to the next minimum when only daily extremes are known. */
public enum NightRule implements Word {
  /**
   * One logarithm through the whole night: no step at midnight, and the minimum is met at sunrise.
   */
  CONTINUOUS,

  /**
   * As the R package chillR has it: after sunset the divisor is ln(night + 1), before sunrise
   * ln(night), and yesterday's sunset temperature is rebuilt with today's day length. The curve
   * steps at midnight and drops a little below the minimum. For comparison with figures made that
   * way.
   */
  SPLIT_AT_MIDNIGHT
}
