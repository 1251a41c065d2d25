package org.understock.service.pollination;

import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.understock.plant.Variety;
import org.understock.pollination.SetVerdict;
import org.understock.pollination.SetVerdict.State;

/** A planting's outcome in plain English. */
final class Words {
  private Words() {}

  static String outcome(SetVerdict verdict) {
    if (verdict.complete()) {
      return verdict.receipts().size() == 1
          ? verdict.receipts().get(0).text()
          : "Every variety gets pollen that works while it blooms.";
    }
    Map<String, String> names =
        verdict.receipts().stream()
            .map(SetVerdict.Receipt::variety)
            .collect(Collectors.toMap(Variety::id, Variety::name));
    StringBuilder text = new StringBuilder();
    List<String> unserved = verdict.in(State.UNSERVED);
    List<String> unsure = verdict.in(State.UNSURE);
    if (!unserved.isEmpty())
      text.append(list(unserved, names::get, "and"))
          .append(unserved.size() == 1 ? " gets" : " get")
          .append(" no pollen that works in time. ");
    if (!unsure.isEmpty())
      text.append("Whether ")
          .append(list(unsure, names::get, "and"))
          .append(unsure.size() == 1 ? " gets" : " get")
          .append(unserved.isEmpty() ? " pollen that works in time" : " any")
          .append(" is not known for sure. ");
    for (SetVerdict.Mending mending : verdict.mendings()) {
      if (!mending.options().isEmpty()) {
        text.append("Adding ")
            .append(options(mending.options()))
            .append(" serves ")
            .append(list(mending.mends(), names::get, "and"))
            .append(". ");
      }
      if (!mending.likely().isEmpty()) {
        List<String> hoped =
            mending.beyond().stream()
                .filter(
                    id ->
                        !mending.stillBeyond().contains(id) && !mending.likelyServed().contains(id))
                .toList();
        text.append("With ")
            .append(options(mending.likely()))
            .append(" added ")
            .append(list(hoped, names::get, "and"))
            .append(" most likely ")
            .append(hoped.size() == 1 ? "gets" : "get")
            .append(" pollen too. ");
      }
      List<String> likely = mending.likelyServed();
      if (!likely.isEmpty()) {
        text.append("What stands here most likely serves ")
            .append(list(likely, names::get, "and"))
            .append(", though it is not proven. ");
      }
      List<String> lost = mending.stillBeyond();
      if (!lost.isEmpty())
        text.append("Nothing to choose from is known to serve ")
            .append(list(lost, names::get, "or"))
            .append(". ");
    }
    return text.toString().strip();
  }

  private static String options(List<List<Variety>> options) {
    return list(
        options.stream().limit(3).toList(),
        option -> list(option, Variety::name, "and"),
        options.get(0).size() > 1 ? ", or" : "or");
  }

  private static <T> String list(List<T> things, Function<T, String> name, String last) {
    List<String> names = things.stream().map(name).toList();
    if (names.size() < 2) return String.join("", names);
    String joint = last.startsWith(",") ? last : " " + last;
    return String.join(", ", names.subList(0, names.size() - 1))
        + joint
        + " "
        + names.get(names.size() - 1);
  }
}
