package org.understock.planting;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;
import org.understock.economics.Money;
import org.understock.economics.Spread;

/** Sums of money and chances as the sentences give them: no more digits than they deserve. */
final class Sums {
  private Sums() {}

  /** Three digits, thousands apart, with the currency's label. */
  static String text(double sum, Money money) {
    return plain(sum) + (money.currency() == null ? "" : " " + money.currency());
  }

  static String plain(double sum) {
    BigDecimal rounded = new BigDecimal(sum).round(new MathContext(3, RoundingMode.HALF_UP));
    if (rounded.signum() == 0) return "0";
    if (rounded.abs().compareTo(BigDecimal.TEN) < 0)
      return (rounded.signum() < 0 ? "−" : "")
          + rounded.abs().setScale(2, RoundingMode.HALF_UP).toPlainString();
    String digits = rounded.abs().setScale(0, RoundingMode.HALF_UP).toPlainString();
    StringBuilder text = new StringBuilder(rounded.signum() < 0 ? "−" : "");
    for (int k = 0; k < digits.length(); k++) {
      if (k > 0 && (digits.length() - k) % 3 == 0 && digits.length() > 4) text.append(' ');
      text.append(digits.charAt(k));
    }
    return text.toString();
  }

  /** Such as "83 of 100 cases". */
  static String inHundred(double chance) {
    if (chance > 0 && chance < 0.01) return "fewer than 1 of 100 cases";
    if (chance < 1 && chance > 0.99) return "more than 99 of 100 cases";
    return chance == 1
        ? "all cases"
        : chance == 0 ? "no case" : Math.round(100 * chance) + " of 100 cases";
  }

  private static String span(Spread spread) {
    return end(spread.low()) + " to " + end(spread.high());
  }

  private static String end(@Nullable Double x) {
    return x == null ? "none" : plain(x);
  }

  /** The account in four sentences. */
  static String account(Account account) {
    Money money = account.money();
    StringBuilder text = new StringBuilder();
    if (account.outlaySum() > 0)
      text.append("To plant costs ").append(text(account.outlaySum(), money)).append(". ");
    text.append(payback(account)).append(' ');
    double worth = value(account.netPresentValue().likely());
    double yearly = value(account.annuity().likely());
    text.append(
        money.rate() == 0
            ? "Over "
            : "At a discount of " + percent(money.discountPercent()) + " a year, over ");
    text.append(money.horizonYears() == 1 ? "one year" : money.horizonYears() + " years");
    text.append(worth < 0 ? ", it likely loses " : ", it likely comes to ");
    text.append(text(Math.abs(worth), money));
    text.append(money.rate() == 0 ? " (" : " in today's worth (");
    text.append(span(account.netPresentValue()));
    text.append(worth < 0 ? "), which is as bad as losing " : "), which is as good as ");
    text.append(text(Math.abs(yearly), money)).append(" every year that it stands (");
    text.append(span(account.annuity())).append("); it ends with a gain in ");
    text.append(inHundred(account.chanceOfGain())).append('.');
    Double even = account.breakEvenPerKg().likely();
    if (even != null && even > 0)
      text.append(" It breaks even at ")
          .append(text(even, money))
          .append(" per kg of good fruit (")
          .append(span(account.breakEvenPerKg()))
          .append(").");
    return text.toString();
  }

  /** When it has paid back. */
  static String payback(Account account) {
    int horizon = account.money().horizonYears();
    Double likely = account.paybackYear().likely();
    if (account.outlaySum() == 0 && likely != null && likely == 0)
      return "By the costs that were given nothing has to be paid back.";
    if (account.chancePaidBack() == 0) return "It does not pay back within " + horizon + " years.";
    String chance = inHundred(account.chancePaidBack());
    if (likely == null)
      return "More likely than not it does not pay back within "
          + horizon
          + " years; it does in "
          + chance
          + ".";
    Double low = account.paybackYear().low();
    Double high = account.paybackYear().high();
    return "It likely has paid back by the end of year "
        + Math.round(likely)
        + ", year "
        + Math.round(low == null ? likely : low)
        + " where it goes well and "
        + (high == null ? "not within " + horizon + " years" : "year " + Math.round(high))
        + " where it goes badly; it pays back within "
        + horizon
        + " years in "
        + chance
        + ".";
  }

  private static double value(@Nullable Double x) {
    return x == null ? 0 : x;
  }

  static String percent(@Nullable Double percent) {
    return BigDecimal.valueOf(percent == null ? 0 : percent)
            .setScale(1, RoundingMode.HALF_UP)
            .stripTrailingZeros()
            .toPlainString()
        + " %";
  }
}
