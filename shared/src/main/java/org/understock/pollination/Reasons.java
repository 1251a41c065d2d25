package org.understock.pollination;

import java.util.ArrayList;
import java.util.List;
import org.understock.plant.Crop;
import org.understock.pollination.Allele.Known;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/** A verdict in one or two sentences. */
final class Reasons {
  private final Words words;
  private final PairVerdict pair;
  private final Flower donor;
  private final Flower receiver;

  Reasons(Words words, PairVerdict pair, Flower donor, Flower receiver) {
    this.words = words;
    this.pair = pair;
    this.donor = donor;
    this.receiver = receiver;
  }

  String text() {
    String text = why();
    return donor == receiver || pair.verdict() == Verdict.NONE
        ? text
        : text + " " + words.say("pollination.bloom", "overlap", pair.overlap().id());
  }

  private String why() {
    return switch (pair.basis()) {
      case SELF_FERTILITY -> say("pollination.self");
      case SELF_ALLELES -> say("pollination.self-alleles", "alleles", labels(receiver));
      case SELF_CROP_RULE ->
          say("pollination.self-crop", "rule", CropRule.text(receiver.variety().crop()));
      case SPECIES_WALL -> say("pollination.wall");
      case STERILE_POLLEN ->
          say("pollination.sterile", "triploid", donor.pollen() == Flower.PollenState.TRIPLOID);
      case SPORT -> say("pollination.sport");
      case ALLELES -> say("pollination.alleles", "stopped", words.each(stopped()));
      case ALLELES_IN_PART -> say("pollination.alleles-in-part");
      case ALLELES_DISPUTED -> say("pollination.alleles-disputed", "varieties", disputed());
      case NOT_COMPARABLE -> notComparable();
      case BEYOND_ALLELES ->
          say(
              "pollination.beyond-alleles",
              "fertile",
              (donor.isSelfFertileBeyondAlleles() ? donor : receiver).variety().name());
      case PUBLISHED_PAIR -> say("pollination.published");
      case PUBLISHED_AGAINST_ALLELES -> say("pollination.published-against-alleles");
      case KINDS_CROSS -> say("pollination.kinds-cross");
      case ANY_PARTNER -> say("pollination.any-partner");
      case NO_ALLELES -> noAlleles();
    };
  }

  /** A sentence about the two, with what else it needs. */
  private String say(String key, Object... more) {
    Object[] named = {
      "donor",
      donor.variety().name(),
      "receiver",
      receiver.variety().name(),
      "verdict",
      pair.verdict().id(),
      "donorAlleles",
      label(donor),
      "receiverAlleles",
      label(receiver),
      "donorKind",
      Sentence.of("kind." + donor.variety().crop().id()),
      "receiverKind",
      Sentence.of("kind." + receiver.variety().crop().id())
    };
    Object[] all = new Object[named.length + more.length];
    System.arraycopy(named, 0, all, 0, named.length);
    System.arraycopy(more, 0, all, named.length, more.length);
    return words.say(key, all);
  }

  private String notComparable() {
    if (donor.variety().crop() == Crop.TART_CHERRY) return say("pollination.tetraploid");
    if (donor.unreadable() == null && receiver.unreadable() == null)
      return say("pollination.other-series");
    Flower unreadable = donor.unreadable() != null ? donor : receiver;
    return say("pollination.unreadable", "variety", unreadable.variety().name());
  }

  /** The donor's alleles that the receiver stops. */
  private List<String> stopped() {
    Genotype d = donor.genotypes().get(0);
    Genotype r = receiver.genotypes().get(0);
    List<String> stopped = new ArrayList<>();
    for (Allele allele : d.alleles()) {
      boolean met =
          r.alleles().stream()
              .anyMatch(a -> a.sameAs(allele) == Known.YES && a.pistilRejects() == Known.YES);
      if (met && allele.pollenRecognised() == Known.YES && !stopped.contains(allele.label()))
        stopped.add(allele.label());
    }
    return stopped;
  }

  private String noAlleles() {
    List<String> whose = new ArrayList<>();
    if (donor.genotypes().isEmpty()) whose.add(donor.variety().name());
    if (receiver.genotypes().isEmpty()) whose.add(receiver.variety().name());
    String text = say("pollination.no-alleles", "varieties", words.each(whose));
    return Double.isNaN(pair.chanceUsable())
        ? text
        : text
            + " "
            + say("pollination.usual-chance", "chance", Receipts.percent(pair.chanceUsable()));
  }

  private String disputed() {
    List<String> names = new ArrayList<>();
    for (Flower flower : donor == receiver ? List.of(donor) : List.of(donor, receiver)) {
      if (flower.genotypes().size() > 1) {
        names.add(flower.variety().name() + " (" + labels(flower) + ")");
      }
    }
    return words.each(names);
  }

  private String label(Flower flower) {
    return flower.genotypes().isEmpty()
        ? words.say("pollination.alleles-unknown")
        : flower.genotypes().get(0).label();
  }

  private String labels(Flower flower) {
    return words.any(flower.genotypes().stream().map(Genotype::label).toList());
  }
}
