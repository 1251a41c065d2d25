package org.understock.climate;

import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.site.Word;
import org.understock.wording.Sentence;

/**
 * One winter of a series.
 *
 * @param label 2024/25, or 2024 for a season within one year
 * @param from first day of the season
 * @param to last day of the season
 * @param standing how much of it is known
 * @param chill what was counted; absent for a refused winter
 * @param missingHours hours of the season that were not measured, bridged ones among them
 * @param coldestNightC lowest temperature of the days that are known; absent when there is none
 * @param text what is missing; says nothing when nothing is
 */
public record Winter(
    String label,
    LocalDate from,
    LocalDate to,
    Standing standing,
    Optional<Chill> chill,
    int missingHours,
    @Nullable Double coldestNightC,
    Sentence text) {

  /** How much of a winter is known. */
  public enum Standing implements Word {
    /** All of it, short gaps bridged. */
    COMPLETE,

    /**
     * The series begins or ends within it: the figures are those of the part that is known, and
     * count towards nothing else.
     */
    PARTIAL,

    /** A gap in it is too long to be bridged: no figures. */
    REFUSED
  }
}
