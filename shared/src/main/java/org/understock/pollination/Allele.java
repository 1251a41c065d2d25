package org.understock.pollination;

/**
 * One S-allele as a genotype shows it.
 *
 * @param label as printed, such as {@code S4'}
 * @param token what the allele is compared by: its number or letter, brought to the crop's
 *     reference naming where two names are known to mean one allele
 * @param series the naming series of the token; alleles of different series cannot be compared.
 *     Empty where a crop has one series only, and {@link #EITHER} for an allele whose name is known
 *     in both of two series
 * @param pollenRecognised whether pollen with this allele is recognised by a pistil that carries
 *     it; NO in a pollen-part mutant, whose pollen grows everywhere
 * @param pistilRejects whether a pistil with this allele rejects pollen that carries it; NO in a
 *     pistil-part mutant
 */
record Allele(
    String label, String token, String series, Known pollenRecognised, Known pistilRejects) {
  /** Series of an allele named in both of a crop's series. */
  static final String EITHER = "*";

  /** A claim that may be open. */
  enum Known {
    YES,
    NO,
    OPEN
  }

  /** Whether two names mean the same allele. */
  Known sameAs(Allele other) {
    boolean comparable =
        series.equals(other.series) || series.equals(EITHER) || other.series.equals(EITHER);
    if (!comparable) return Known.OPEN;
    return token.equals(other.token) ? Known.YES : Known.NO;
  }
}
