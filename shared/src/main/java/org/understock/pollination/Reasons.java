package org.understock.pollination;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.understock.plant.Crop;
import org.understock.pollination.Allele.Known;

/** Verdicts in plain English. */
final class Reasons {
  private Reasons() {}

  static String of(
      Flower donor,
      Flower receiver,
      Verdict verdict,
      PairVerdict.Basis basis,
      Overlap overlap,
      double chanceUsable) {
    String d = donor.variety().name();
    String r = receiver.variety().name();
    String text =
        switch (basis) {
          case SELF_FERTILITY -> self(receiver, verdict);
          case SELF_ALLELES ->
              verdict == Verdict.NONE
                  ? r
                      + " ("
                      + labels(receiver)
                      + ") stops its own pollen and needs another variety."
                  : r
                      + " ("
                      + labels(receiver)
                      + ") carries an allele that lets its own pollen grow.";
          case SELF_CROP_RULE ->
              "Nothing is recorded for "
                  + r
                  + "; "
                  + CropRule.of(receiver.variety().crop()).text()
                  + ".";
          case SPECIES_WALL ->
              "A " + kind(donor) + " is no pollen partner for a " + kind(receiver) + ".";
          case STERILE_POLLEN ->
              donor.pollen() == Flower.PollenState.TRIPLOID
                  ? d + " is a triploid: it has little pollen and most of it is sterile."
                  : d + " gives little or no good pollen.";
          case SPORT -> d + " and " + r + " are sports of one variety and carry the same alleles.";
          case ALLELES -> alleles(donor, receiver, verdict);
          case ALLELES_IN_PART ->
              verdict == Verdict.PARTIAL
                  ? "At least half of the pollen of "
                      + d
                      + " ("
                      + label(donor)
                      + ") works on "
                      + r
                      + " ("
                      + label(receiver)
                      + "); the rest is not known."
                  : "The alleles known of "
                      + d
                      + " ("
                      + label(donor)
                      + ") and "
                      + r
                      + " ("
                      + label(receiver)
                      + ") do not decide.";
          case ALLELES_DISPUTED ->
              "Sources differ on the alleles of "
                  + disputed(donor, receiver)
                  + switch (verdict) {
                    case FULL -> "; by every reading all of the pollen works.";
                    case PARTIAL -> "; by every reading at least part of the pollen works.";
                    case NONE -> "; by every reading all of the pollen is stopped.";
                    case UNKNOWN -> "; the readings lead to different verdicts.";
                  };
          case NOT_COMPARABLE ->
              donor.variety().crop() == Crop.TART_CHERRY
                  ? "Tart cherries have four chromosome sets: their alleles are not read by the usual rule, and no source is at hand for this pair."
                  : donor.unreadable() != null || receiver.unreadable() != null
                      ? "The recorded alleles of "
                          + (donor.unreadable() != null ? d : r)
                          + " could not be read."
                      : "The alleles of "
                          + d
                          + " and "
                          + r
                          + " are named in different series and cannot be compared.";
          case BEYOND_ALLELES ->
              "By their alleles "
                  + d
                  + " ("
                  + label(donor)
                  + ") would not fertilise "
                  + r
                  + " ("
                  + label(receiver)
                  + "), but "
                  + (donor.isSelfFertileBeyondAlleles() ? d : r)
                  + " is self-fertile for a reason that the alleles do not show.";
          case PUBLISHED_PAIR ->
              "A source names "
                  + d
                  + " as a partner of "
                  + r
                  + "; whether all or half of the pollen works is not said.";
          case PUBLISHED_AGAINST_ALLELES ->
              "A source names "
                  + d
                  + " as a partner of "
                  + r
                  + ", but by their alleles ("
                  + label(donor)
                  + ", "
                  + label(receiver)
                  + ") the pollen would be stopped.";
          case KINDS_CROSS ->
              "European and Asian pears can pollinate each other when they bloom together; how much of this pollen works is not known.";
          case ANY_PARTNER -> "Any other " + kind(receiver) + " with good pollen will do.";
          case NO_ALLELES -> noAlleles(donor, receiver) + usual(chanceUsable);
        };
    return donor == receiver || verdict == Verdict.NONE ? text : text + bloom(overlap);
  }

  private static String self(Flower receiver, Verdict verdict) {
    String r = receiver.variety().name();
    return switch (verdict) {
      case FULL -> r + " sets a crop with its own pollen.";
      case PARTIAL ->
          r
              + " sets some fruit with its own pollen; another variety makes the crop larger and more regular.";
      default -> r + " does not set a crop with its own pollen.";
    };
  }

  private static String alleles(Flower donor, Flower receiver, Verdict verdict) {
    Genotype d = donor.genotypes().get(0);
    Genotype r = receiver.genotypes().get(0);
    String pair =
        donor.variety().name()
            + " ("
            + d.label()
            + ") on "
            + receiver.variety().name()
            + " ("
            + r.label()
            + ")";
    List<String> stopped = new ArrayList<>();
    for (Allele allele : d.alleles()) {
      boolean met =
          r.alleles().stream()
              .anyMatch(a -> a.sameAs(allele) == Known.YES && a.pistilRejects() == Known.YES);
      if (met && allele.pollenRecognised() == Known.YES && !stopped.contains(allele.label()))
        stopped.add(allele.label());
    }
    return switch (verdict) {
      case FULL -> pair + ": all of the pollen works.";
      case PARTIAL ->
          pair
              + ": pollen with "
              + String.join(" and ", stopped)
              + " is stopped, the other half works.";
      default -> pair + ": all of the pollen is stopped.";
    };
  }

  private static String noAlleles(Flower donor, Flower receiver) {
    boolean d = donor.genotypes().isEmpty();
    boolean r = receiver.genotypes().isEmpty();
    String whose =
        d && r
            ? donor.variety().name() + " and " + receiver.variety().name()
            : (d ? donor : receiver).variety().name();
    return "The alleles of "
        + whose
        + " are not recorded, so only bloom time and pollen speak for or against the pair.";
  }

  private static String usual(double chanceUsable) {
    if (Double.isNaN(chanceUsable)) return "";
    return String.format(
        Locale.ROOT,
        " Among pairs of this crop with known alleles %.0f %% work at least in part.",
        100 * chanceUsable);
  }

  private static String disputed(Flower donor, Flower receiver) {
    List<String> names = new ArrayList<>();
    for (Flower flower : donor == receiver ? List.of(donor) : List.of(donor, receiver)) {
      if (flower.genotypes().size() > 1) {
        names.add(flower.variety().name() + " (" + labels(flower) + ")");
      }
    }
    return String.join(" and ", names);
  }

  private static String label(Flower flower) {
    return flower.genotypes().isEmpty() ? "alleles not known" : flower.genotypes().get(0).label();
  }

  private static String labels(Flower flower) {
    return String.join(" or ", flower.genotypes().stream().map(Genotype::label).toList());
  }

  private static String kind(Flower flower) {
    Crop crop = flower.variety().crop();
    String label = crop == Crop.PEACH ? "peach or nectarine" : crop.label();
    return crop.label().startsWith("European")
            || crop.label().startsWith("Asian")
            || crop.label().startsWith("Japanese")
        ? label
        : label.toLowerCase(Locale.ROOT);
  }

  private static String bloom(Overlap overlap) {
    return switch (overlap) {
      case GOOD -> " They bloom together.";
      case SOME -> " Their blooms overlap in part.";
      case POOR -> " Their usual bloom dates lie too far apart to count on.";
      case UNKNOWN -> " Whether they bloom together is not recorded.";
    };
  }
}
