package org.understock.service.pollination;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.understock.plant.Variety;
import org.understock.pollination.SetVerdict;
import org.understock.pollination.SetVerdict.State;
import org.understock.wording.Words;

/** A planting's outcome in sentences. */
final class Outcome {
  private static final int MOST_OPTIONS = 3;

  private final SetVerdict verdict;
  private final Words words;
  private final Map<String, String> names;

  private Outcome(SetVerdict verdict, Words words) {
    this.verdict = verdict;
    this.words = words;
    names =
        verdict.receipts().stream()
            .map(SetVerdict.Receipt::variety)
            .collect(Collectors.toMap(Variety::id, Variety::name));
  }

  static String of(SetVerdict verdict, Words words) {
    if (!verdict.complete()) return new Outcome(verdict, words).incomplete();
    return verdict.receipts().size() == 1
        ? verdict.receipts().get(0).text().in(words)
        : words.say("outcome.complete");
  }

  private String incomplete() {
    List<String> text = new ArrayList<>();
    List<String> unserved = verdict.in(State.UNSERVED);
    List<String> unsure = verdict.in(State.UNSURE);
    if (!unserved.isEmpty()) text.add(say("outcome.unserved", unserved));
    if (!unsure.isEmpty()) text.add(say("outcome.unsure", unsure, "after", !unserved.isEmpty()));
    for (SetVerdict.Mending mending : verdict.mendings()) {
      if (!mending.options().isEmpty())
        text.add(say("outcome.adding", mending.mends(), "options", options(mending.options())));
      if (!mending.likely().isEmpty()) {
        List<String> hoped =
            mending.beyond().stream()
                .filter(
                    id ->
                        !mending.stillBeyond().contains(id) && !mending.likelyServed().contains(id))
                .toList();
        text.add(say("outcome.adding-likely", hoped, "options", options(mending.likely())));
      }
      if (!mending.likelyServed().isEmpty())
        text.add(say("outcome.likely", mending.likelyServed()));
      if (!mending.stillBeyond().isEmpty())
        text.add(
            words.say("outcome.lost", "varieties", words.either(names(mending.stillBeyond()))));
    }
    return String.join(" ", text);
  }

  /** A sentence about some of the planting's varieties. */
  private String say(String key, List<String> varieties, Object... more) {
    List<Object> named = new ArrayList<>(List.of(more));
    named.addAll(List.of("varieties", words.all(names(varieties)), "count", varieties.size()));
    return words.say(key, named.toArray());
  }

  /** The first options: "A, B or C", or "A and B, or C and D". */
  private String options(List<List<Variety>> options) {
    List<String> told =
        options.stream()
            .limit(MOST_OPTIONS)
            .map(option -> words.all(option.stream().map(Variety::name).toList()))
            .toList();
    if (options.get(0).size() == 1 || told.size() == 1) return words.either(told);
    int last = told.size() - 1;
    return words.say(
        "outcome.or", "options", String.join(", ", told.subList(0, last)), "last", told.get(last));
  }

  private List<String> names(Collection<String> ids) {
    return ids.stream().map(id -> Objects.requireNonNull(names.get(id))).toList();
  }
}
