package org.understock.economics;

import org.jspecify.annotations.Nullable;
import org.understock.site.Word;
import org.understock.trait.PlainText;
import org.understock.trait.Refusal;

/**
 * The asker's own prices and costs, and how to reckon with them. There are no usual prices: what is
 * not given is not counted.
 *
 * @param currency label for the sums, nothing is converted; null for none
 * @param horizonYears how far to reckon, 1 to 60
 * @param discountPercent what a sum loses in worth for each year that it comes later, -50 to 100;
 *     null for 0
 * @param atEndOfLife what happens when trees are spent
 */
public record Money(
    @Nullable String currency,
    int horizonYears,
    @Nullable Double discountPercent,
    Prices price,
    Costs costs,
    End atEndOfLife) {

  /** Furthest horizon. */
  public static final int MOST_YEARS = 60;

  /** Lowest discount. At -100 % nothing would be defined; far above it figures lose all meaning. */
  public static final double LEAST_DISCOUNT_PERCENT = -50;

  /** Longest label of a currency. */
  public static final int LONGEST_CURRENCY = 20;

  /** What is done with trees at the end of their life. */
  public enum End implements Word {
    /** They are grubbed, and nothing is planted after them. */
    GRUB,
    /** They are grubbed, and the same is planted again at once, at the same cost. */
    REPLANT
  }

  public Money {
    if (currency != null) {
      if (currency.isBlank())
        throw new Refusal.OutOfRange("money.currency", "empty", "a label, or left out");
      PlainText.check("money.currency", currency, LONGEST_CURRENCY);
    }
    if (horizonYears < 1 || horizonYears > MOST_YEARS)
      throw new Refusal.OutOfRange(
          "money.horizonYears", horizonYears, "between 1 and " + MOST_YEARS);
    if (discountPercent != null
        && !(discountPercent >= LEAST_DISCOUNT_PERCENT && discountPercent <= 100))
      throw new Refusal.OutOfRange(
          "money.discountPercent", discountPercent, "between -50 and 100 %");
  }

  /** The yearly rate as a share. */
  public double rate() {
    return discountPercent == null ? 0 : discountPercent / 100;
  }

  /** With one pairing's own price and cost of a tree; null keeps this one's. */
  public Money with(@Nullable Double perKg, @Nullable Double treeEach) {
    return new Money(
        currency,
        horizonYears,
        discountPercent,
        price.withPerKg(perKg),
        costs.withTreeEach(treeEach),
        atEndOfLife);
  }
}
