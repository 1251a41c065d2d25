package org.understock.pollination;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.understock.plant.Crop;
import org.understock.pollination.Allele.Known;
import org.understock.trait.Refusal;

/**
 * The S-genotype of a variety: {@code S3S4}, {@code S3S4'}, {@code S2S3S20}, {@code S9?}.
 *
 * @param text as given
 * @param alleles by number, then letter, so that S4S3 equals S3S4
 * @param complete false when the text ends in a question mark: further alleles are not known
 */
record Genotype(String text, List<Allele> alleles, boolean complete) {
  private static final Pattern ALLELE =
      Pattern.compile(
          "S(?:(\\d{1,4}(?:[abc](?![a-z]))?|[a-z](?![a-z]))(sm|m\\d*|')?|(null))[|/ -]?");

  /**
   * Japanese plum: letter and number name one allele (Halász and others 2007, source
   * halasz-2007-plum).
   */
  private static final List<String> PLUM_LETTERS = List.of("k", "c", "e", "f");

  private static final List<String> PLUM_NUMBERS = List.of("3", "4", "5", "6");

  Genotype {
    alleles =
        alleles.stream()
            .sorted(Comparator.comparingInt(Genotype::number).thenComparing(Allele::label))
            .toList();
  }

  /**
   * Reads a genotype as the literature of a crop prints it.
   *
   * @throws Refusal.Conflict when the text is no genotype
   */
  static Genotype parse(Crop crop, String text) {
    String rest = text.strip().replace('’', '\'').replace('′', '\'');
    boolean complete = !rest.endsWith("?");
    if (!complete) rest = rest.substring(0, rest.length() - 1).strip();
    List<Allele> alleles = new ArrayList<>();
    Matcher matcher = ALLELE.matcher(rest);
    int at = 0;
    while (at < rest.length() && matcher.find(at) && matcher.start() == at) {
      String label =
          "S"
              + (matcher.group(3) != null
                  ? "null"
                  : matcher.group(1) + (matcher.group(2) == null ? "" : matcher.group(2)));
      alleles.add(allele(crop, label, matcher.group(1), matcher.group(2)));
      at = matcher.end();
    }
    if (at < rest.length() || (alleles.isEmpty() && complete)) {
      throw new Refusal.Conflict(
          "s-alleles",
          "'"
              + text
              + "' is not an S-genotype; write S3S4, S3S4', S2S3S20, or S9? when one allele is unknown");
    }
    return new Genotype(text.strip(), alleles, complete);
  }

  private static int number(Allele allele) {
    String digits = allele.label().replaceAll("^S(\\d*).*", "$1");
    return digits.isEmpty() ? Integer.MAX_VALUE : Integer.parseInt(digits);
  }

  /** Labels in order: one text for one genotype, however it was written. */
  String label() {
    StringBuilder label = new StringBuilder();
    for (Allele allele : alleles) label.append(allele.label());
    return complete ? label.toString() : label.append('?').toString();
  }

  /** True when the other genotype is complete and contains all that this one tells. */
  boolean isCoveredBy(Genotype other) {
    if (complete || !other.complete) return false;
    for (Allele allele : alleles)
      if (other.alleles.stream().noneMatch(a -> a.sameAs(allele) == Known.YES)) return false;
    return true;
  }

  /**
   * True when the pollen of at least one allele grows on every pistil, the variety's own included.
   */
  boolean hasUniversalPollen() {
    return alleles.stream().anyMatch(a -> a.pollenRecognised() == Known.NO);
  }

  /*
   * What the marks mean. A prime in sweet cherry is a pollen-part mutation (S4': pollen accepted everywhere, pistil still rejects S4); "sm" in
   * Asian pear is a pistil-part mutant; "m" and "null" leave open which side is lost. Apricot Sc is a pollen-part mutant; its pistil part is
   * that of S8. Japanese plum Se goes with self-compatibility, though not in every carrier (Abdallah and others 2019), so its pistil part
   * stays open.
   */
  private static Allele allele(Crop crop, String label, String base, String mark) {
    if (base == null) return new Allele(label, label, "null", Known.OPEN, Known.OPEN);
    Known recognised = Known.YES;
    Known rejects = Known.YES;
    if ("'".equals(mark)) {
      recognised = Known.NO;
    } else if ("sm".equals(mark)) {
      rejects = Known.NO;
    } else if (mark != null) {
      recognised = Known.OPEN;
      rejects = Known.OPEN;
    }
    String token = base;
    if (crop == Crop.APRICOT && base.equals("c")) {
      recognised = Known.NO;
      token = "8";
    }
    if (crop == Crop.JAPANESE_PLUM && Set.of("e", "5").contains(base)) rejects = Known.OPEN;
    boolean number = Character.isDigit(base.charAt(0));
    String series =
        switch (crop) {
          case EUROPEAN_PEAR ->
              !number ? "pear letters" : base.length() >= 3 ? "pear from S101" : "pear low numbers";
          case ASIAN_PEAR -> "Asian pear";
          case JAPANESE_PLUM ->
              PLUM_LETTERS.contains(base) || PLUM_NUMBERS.contains(base)
                  ? Allele.EITHER
                  : number ? "plum numbers" : "plum letters";
          default -> "";
        };
    if (crop == Crop.JAPANESE_PLUM && PLUM_LETTERS.contains(base))
      token = PLUM_NUMBERS.get(PLUM_LETTERS.indexOf(base));
    return new Allele(label, token, series, recognised, rejects);
  }
}
