package org.understock.climate;

import java.time.MonthDay;
import java.util.List;
import java.util.Optional;
import org.understock.wording.Sentence;

/**
 * When a variety is expected to bloom at a place.
 *
 * @param basis what the days rest on
 * @param fullBloom middle of the days
 * @param spreadDays standard deviation of the day from year to year about what is expected of the
 *     year
 * @param doubtDays standard deviation of what is not known of the middle: the same error in every
 *     year
 * @param model the fitted model; only for basis chill-then-heat
 * @param days possible days by year, without the doubt about their middle
 * @param records ids of the records that it leans on
 * @param text one sentence on how the days were come by
 */
public record ExpectedBloom(
    BloomOutlook.Basis basis,
    MonthDay fullBloom,
    double spreadDays,
    double doubtDays,
    Optional<ChillThenHeat> model,
    BloomDays days,
    List<String> records,
    Sentence text) {
  public ExpectedBloom {
    records = List.copyOf(records);
  }
}
