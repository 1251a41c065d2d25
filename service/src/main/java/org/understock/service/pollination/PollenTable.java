package org.understock.service.pollination;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.understock.plant.Crop;
import org.understock.pollination.Pollination;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.service.pollination.PollinationResponse.Pair;
import org.understock.service.pollination.PollinationResponse.Receipt;
import org.understock.wording.Words;

/**
 * The table of whose pollen does what: a column for each giver, a row for each receiver, a shape
 * for each pair.
 */
final class PollenTable {
  private final List<Receipt> givers;
  private final double cell;
  private final Words words;
  private final Map<List<String>, Pair> pairs = new HashMap<>();

  PollenTable(PollinationResponse answer, List<Receipt> givers, double cell, Words words) {
    this.words = words;
    this.givers = givers;
    this.cell = cell;
    for (Pair pair : answer.pairs()) pairs.put(List.of(pair.pollen(), pair.receiver()), pair);
  }

  void head(Drawing drawing, double x, double captionY, double body, Crop crop) {
    drawing.text(
        x, captionY, words.say("chart.bloom.pollen-of"), "font-size", 12, "fill", Palette.GREY);
    List<Receipt> columns = columns(crop);
    for (int k = 0; k < columns.size(); k++) {
      String number = String.valueOf(givers.indexOf(columns.get(k)) + 1);
      drawing.text(
          x + cell * (k + 0.5),
          body - 8,
          number,
          "text-anchor",
          "middle",
          "font-size",
          12,
          "fill",
          Palette.INK);
    }
  }

  void row(Drawing drawing, double x, double middle, Receipt receiver, Crop crop) {
    List<Receipt> columns = columns(crop);
    for (int k = 0; k < columns.size(); k++) {
      Receipt giver = columns.get(k);
      Pair pair = Objects.requireNonNull(pairs.get(List.of(giver.id(), receiver.id())));
      drawing.group(pair.text());
      Legend.pollen(
          drawing, x + cell * (k + 0.5), middle, Mark.of(pair, receiver), giver == receiver);
      drawing.end();
    }
  }

  /** Kinds that do not cross have no column: a table of crosses would hide what is to be seen. */
  private List<Receipt> columns(Crop crop) {
    return givers.stream()
        .filter(giver -> Pollination.canCross(Crop.of(giver.crop()), crop))
        .toList();
  }

  /** What a pair comes to. */
  enum Mark {
    ALL,
    PART,
    OPEN,
    APART,
    NONE;

    String meaning(Words words) {
      return words.say("chart.bloom.mark", "mark", name().toLowerCase(Locale.ROOT));
    }

    static Mark of(Pair pair, Receipt receiver) {
      if (pair.verdict().equals("none")) return NONE;
      if (pair.bloomOverlap().equals("poor")) return APART;
      boolean sure =
          pair.pollen().equals(receiver.id())
              ? !pair.verdict().equals("unknown")
              : receiver.donors().contains(pair.pollen());
      if (!sure) return OPEN;
      return pair.verdict().equals("full") ? ALL : PART;
    }
  }
}
