package org.understock.impact;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.understock.advice.Adviser;
import org.understock.advice.Stake;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;

/**
 * Which evidence is worth most: subject by trait, by how much knowing it would better the first
 * places of the kept examples.
 *
 * <p>A trait of which nothing at all is published on a crop's stocks takes no part in the crop's
 * answers and is not listed; whether to look for it is the curator's judgement.
 */
public final class Gaps {
  /**
   * Traits that tell of a tree's size: a record of any of them fills the gap named by the first.
   */
  private static final List<String> SIZE =
      List.of(
          "size-percent-of-standard",
          "trunk-cross-sectional-area",
          "usual-height",
          "mature-height");

  private static final Map<String, String> REPORTS =
      Map.of(
          "size-percent-of-standard",
              "a trial that gives trunk areas of trees on %s beside stocks compared before, or its size against seedling",
          "years-to-first-crop", "a trial or table that tells when trees on %s first crop",
          "mature-yield", "a table or a long trial that tells what full-grown trees on %s carry",
          "lifespan", "a survey of old plantings, or a table that tells how long trees on %s live",
          "support-need", "a table or trial that tells whether trees on %s stand without a stake",
          "min-winter-temperature",
              "a hardiness zone, or a lowest temperature borne, published for %s",
          "winter-cold", "a test-winter report or a rating of the winter hardiness of %s",
          "vigor", "a description that rates the vigour of %s beside other varieties",
          "self-fertile", "a statement whether %s sets fruit with its own pollen, or its S-alleles",
          "compatibility",
              "a nursery or orchard trial of the union of %s that ran five years or longer");

  private final TraitBook book;

  private Gaps(TraitBook book) {
    this.book = book;
  }

  /**
   * All gaps worth anything, the most first. Examples that can't be answered from the adviser's
   * book take no part.
   */
  public static List<Gap> of(Adviser adviser, List<ExampleQuestion> kept) {
    Gaps gaps = new Gaps(adviser.book());
    Map<Key, List<Gap.Share>> shares = new LinkedHashMap<>();
    for (ExampleQuestion example : kept) {
      for (Stake stake : stakes(adviser, example)) {
        shares
            .computeIfAbsent(new Key(stake.subject(), stake.trait()), k -> new ArrayList<>())
            .add(new Gap.Share(example, stake.points(), stake.wouldChange()));
      }
    }
    return shares.entrySet().stream()
        .map(e -> gaps.gap(e.getKey(), e.getValue()))
        .sorted(
            Comparator.comparingDouble((Gap g) -> -g.points())
                .thenComparing(g -> g.subject().toString())
                .thenComparing(Gap::trait))
        .toList();
  }

  private record Key(Subject subject, String trait) {}

  private static List<Stake> stakes(Adviser adviser, ExampleQuestion example) {
    try {
      return adviser.stakes(example.question());
    } catch (Refusal notAnswerable) {
      return List.of(); // the impact of a change names such examples, with the reason
    }
  }

  private Gap gap(Key key, List<Gap.Share> shares) {
    double points = shares.stream().mapToDouble(Gap.Share::points).sum();
    List<Gap.Share> most =
        shares.stream()
            .sorted(
                Comparator.comparingDouble((Gap.Share s) -> -s.points())
                    .thenComparing(s -> s.example().id()))
            .toList();
    String name = name(key.subject);
    Trait trait = book.traits().get(key.trait);
    return new Gap(
        key.subject,
        name,
        trait.id(),
        trait.name(),
        points,
        known(key.subject, trait),
        lookFor(trait, name),
        most);
  }

  private String name(Subject subject) {
    if (subject instanceof Subject.StockIn in) return stock(in.stock());
    if (subject instanceof Subject.OfVariety of) return variety(of.variety());
    Subject.Pairing pairing = (Subject.Pairing) subject;
    return (pairing.variety() == null ? "any variety" : variety(pairing.variety()))
        + " on "
        + stock(pairing.stock());
  }

  private String stock(String id) {
    return book.plants().stock(id).map(Stock::name).orElse(id);
  }

  private String variety(String id) {
    return book.plants().variety(id).map(Variety::name).orElse(id);
  }

  private String known(Subject subject, Trait trait) {
    Set<String> traits = SIZE.get(0).equals(trait.id()) ? Set.copyOf(SIZE) : Set.of(trait.id());
    List<TraitRecord> own =
        book.records(subject).stream().filter(record -> traits.contains(record.trait())).toList();
    if (!own.isEmpty()) {
      Set<String> sources = own.stream().map(TraitRecord::source).collect(Collectors.toSet());
      String grade =
          book.estimate(subject, trait.id()).map(e -> ", grade " + e.support().grade()).orElse("");
      return counted(own.size(), "record")
          + " from "
          + counted(sources.size(), "source")
          + grade
          + ".";
    }
    if (subject instanceof Subject.Pairing)
      return "No record of this pairing; the stock is known to fail with other varieties.";
    String none =
        "No record" + (subject instanceof Subject.StockIn in ? " in " + in.crop().word() : "");
    String from =
        book.estimate(subject, trait.id())
            .map(Estimate::support)
            .flatMap(Estimate.Support::inheritedFrom)
            .orElse(null);
    if (from == null) return none + ".";
    boolean roots = subject instanceof Subject.StockIn in && from.equals(in.stock());
    return none
        + (roots
            ? "; taken from what is said of its roots under other crops."
            : " of its own; taken from " + stock(from) + ".");
  }

  private static String counted(int n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }

  private static String lookFor(Trait trait, String name) {
    String report = REPORTS.get(trait.id());
    if (report != null) return report.formatted(name);
    String topic = trait.name().toLowerCase(java.util.Locale.ROOT);
    if (trait.id().startsWith("chill-")) return "a published requirement of " + name + ": " + topic;
    return "a rating of "
        + name
        + " for "
        + topic
        + ", or a trial that compares it there with plants that are rated";
  }
}
