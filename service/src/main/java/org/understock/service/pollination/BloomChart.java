package org.understock.service.pollination;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.pollination.BloomTime;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.service.pollination.PollinationResponse.Bloom;
import org.understock.service.pollination.PollinationResponse.Receipt;
import org.understock.wording.Words;

/**
 * A planting drawn: for each crop the varieties' blooms along the days, and beside them a table of
 * whose pollen does what on whom. Shapes say all that colours say.
 */
final class BloomChart {
  private static final double MARGIN = 24;
  private static final double NAME_X = 70;
  private static final double BARS_X = 270;
  private static final double BARS_WIDTH = 400;
  private static final double TABLE_X = BARS_X + BARS_WIDTH + 34;
  private static final double CELL = 24;
  private static final double ROW = 28;
  private static final double HEAD = 58;
  private static final double FOOT = 42;
  private static final double BAR = 14;
  private static final double HALF_BLOOM = BloomTime.SHORT_BLOOM_DAYS / 2.0;
  private static final int NAME_CHARACTERS = 25;
  private static final double CHARACTER = 6.6;

  private final Words words;
  private final PollinationResponse answer;
  private final Map<Crop, List<Receipt>> panels = new LinkedHashMap<>();
  private final List<Receipt> order = new ArrayList<>();
  private final PollenTable table;
  private final double width;

  private BloomChart(PollinationResponse answer, Words words) {
    this.words = words;
    this.answer = answer;
    for (Receipt receipt : answer.varieties())
      panels.computeIfAbsent(Crop.of(receipt.crop()), c -> new ArrayList<>()).add(receipt);
    for (List<Receipt> rows : panels.values()) {
      rows.sort(
          Comparator.comparing(Receipt::bloom, Comparator.comparingDouble(BloomChart::place))
              .thenComparing(Receipt::name));
      order.addAll(rows);
    }
    table = new PollenTable(answer, order, CELL, words);
    width = Math.max(920, TABLE_X + CELL * order.size() + MARGIN);
  }

  static String of(PollinationResponse answer, Words words) {
    return new BloomChart(answer, words).draw();
  }

  /**
   * Where a bloom stands in its panel: by day, then by group, then those of which nothing is known.
   */
  private static double place(Bloom bloom) {
    if (bloom.fullBloomDay() != null) return bloom.fullBloomDay();
    return bloom.group() == null ? 2000 : 1000 + BloomTime.GROUPS.indexOf(bloom.group());
  }

  private String draw() {
    List<String> summary = wrapped(answer.text(), (int) ((width - 2 * MARGIN) / CHARACTER));
    double top = 52 + 18 * summary.size();
    double height =
        top
            + panels.values().stream()
                .mapToDouble(rows -> HEAD + ROW * rows.size() + foot(rows))
                .sum()
            + Legend.HEIGHT
            + MARGIN / 2;
    String title = words.say("chart.bloom.title", "count", order.size());
    Drawing drawing = new Drawing(words, width, height, title, description());
    drawing.text(
        MARGIN,
        34,
        words.say("chart.bloom.heading"),
        "font-size",
        18,
        "font-weight",
        "bold",
        "fill",
        Palette.INK);
    for (int k = 0; k < summary.size(); k++)
      drawing.text(MARGIN, 58 + 18 * k, summary.get(k), "fill", Palette.INK);
    double y = top;
    for (Map.Entry<Crop, List<Receipt>> panel : panels.entrySet()) {
      panel(drawing, panel.getKey(), panel.getValue(), y);
      y += HEAD + ROW * panel.getValue().size() + foot(panel.getValue());
    }
    Legend.draw(drawing, words, MARGIN, y + 4);
    return drawing.finish();
  }

  private static double foot(List<Receipt> rows) {
    return Days.of(rows) == null ? FOOT / 4 : FOOT;
  }

  private void panel(Drawing drawing, Crop crop, List<Receipt> rows, double top) {
    double body = top + HEAD;
    double bottom = body + ROW * rows.size();
    drawing.text(
        MARGIN,
        top + 24,
        Words.capital(words.say("crop." + crop.id())),
        "font-size",
        15,
        "font-weight",
        "bold",
        "fill",
        Palette.INK);
    table.head(drawing, TABLE_X, top + 24, body, crop);
    Days days = Days.of(rows);
    if (days != null) axis(drawing, days, rows, body, bottom);
    for (int k = 0; k < rows.size(); k++) {
      Receipt row = rows.get(k);
      double middle = body + ROW * k + ROW / 2;
      drawing.line(
          MARGIN,
          middle + ROW / 2,
          width - MARGIN,
          middle + ROW / 2,
          "stroke",
          Palette.RULE,
          "stroke-width",
          0.5);
      drawing.group(row.text());
      Legend.state(drawing, MARGIN + 8, middle, row.state());
      drawing.text(
          NAME_X - 6,
          middle + 4.5,
          String.valueOf(order.indexOf(row) + 1),
          "text-anchor",
          "end",
          "fill",
          Palette.GREY);
      drawing.text(
          NAME_X,
          middle + 4.5,
          Drawing.shortened(row.name(), NAME_CHARACTERS),
          "fill",
          Palette.INK);
      drawing.end();
      drawing.group(bloomText(row));
      if (days != null && row.bloom().fullBloomDay() != null)
        bar(drawing, days, row.bloom(), middle);
      else
        drawing.text(
            BARS_X + 4,
            middle + 4.5,
            undated(row.bloom()),
            "font-style",
            "italic",
            "fill",
            Palette.GREY);
      drawing.end();
      table.row(drawing, TABLE_X, middle, row, crop);
    }
  }

  private void axis(Drawing drawing, Days days, List<Receipt> rows, double body, double bottom) {
    for (int day = days.from; day <= days.to; day += days.step) {
      drawing.line(
          days.x(day),
          body,
          days.x(day),
          bottom + 4,
          "stroke",
          day == 0 ? Palette.GREY : Palette.RULE,
          "stroke-width",
          day == 0 ? 1 : 0.7);
      drawing.text(
          days.x(day),
          bottom + 18,
          day > 0 ? "+" + day : String.valueOf(day).replace('-', '−'),
          "text-anchor",
          "middle",
          "font-size",
          11,
          "fill",
          Palette.INK);
    }
    String reference =
        rows.stream()
            .map(r -> r.bloom().reference())
            .filter(Objects::nonNull)
            .map(PollinationResponse.Named::name)
            .findFirst()
            .orElse("");
    drawing.text(
        BARS_X + BARS_WIDTH / 2,
        bottom + 33,
        words.say("chart.bloom.axis", "reference", reference),
        "text-anchor",
        "middle",
        "font-size",
        11,
        "fill",
        Palette.INK);
  }

  private static void bar(Drawing drawing, Days days, Bloom bloom, double middle) {
    double day = Objects.requireNonNull(bloom.fullBloomDay());
    double from = days.x(Objects.requireNonNull(bloom.fullBloomDayLow()) - HALF_BLOOM);
    double to = days.x(Objects.requireNonNull(bloom.fullBloomDayHigh()) + HALF_BLOOM);
    Legend.range(drawing, from, to, middle, BAR);
    Legend.bloom(drawing, days.x(day - HALF_BLOOM), days.x(day + HALF_BLOOM), middle, BAR);
  }

  private String undated(Bloom bloom) {
    return words.say("chart.bloom.undated", "group", group(bloom), "season", season(bloom));
  }

  private static String group(Bloom bloom) {
    return bloom.group() == null ? "none" : bloom.group();
  }

  private String season(Bloom bloom) {
    return bloom.group() == null ? "" : words.say("season." + bloom.group());
  }

  private String bloomText(Receipt row) {
    Bloom bloom = row.bloom();
    Double day = bloom.fullBloomDay();
    if (day == null)
      return words.say("chart.bloom.row", "name", row.name(), "undated", undated(bloom));
    return words.say(
        "chart.bloom.dated",
        "name",
        row.name(),
        "day",
        signed(day),
        "reference",
        bloom.reference() == null ? words.say("chart.bloom.reference") : bloom.reference().name(),
        "low",
        signed(Objects.requireNonNull(bloom.fullBloomDayLow())),
        "high",
        signed(Objects.requireNonNull(bloom.fullBloomDayHigh())),
        "group",
        group(bloom),
        "season",
        season(bloom));
  }

  private String signed(double days) {
    return (days < 0 ? "" : "+") + words.decimal(days);
  }

  private String description() {
    StringBuilder text = new StringBuilder(answer.text());
    for (Receipt row : order)
      text.append('\n')
          .append(order.indexOf(row) + 1)
          .append(". ")
          .append(bloomText(row))
          .append(' ')
          .append(row.text());
    for (PollinationResponse.Pair pair : answer.pairs())
      if (!pair.pollen().equals(pair.receiver())) text.append('\n').append(pair.text());
    return text.toString();
  }

  private static List<String> wrapped(String text, int characters) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ")) {
      if (line.length() > 0 && line.length() + 1 + word.length() > characters) {
        lines.add(line.toString());
        line.setLength(0);
      }
      if (line.length() > 0) line.append(' ');
      line.append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  /** The days of one panel and where they lie. */
  private record Days(int from, int to, int step) {
    private static final int[] STEPS = {1, 2, 5, 10, 20, 50};
    private static final int MOST_TICKS = 12;

    static @Nullable Days of(List<Receipt> rows) {
      List<Bloom> dated =
          rows.stream().map(Receipt::bloom).filter(b -> b.fullBloomDay() != null).toList();
      if (dated.isEmpty()) return null;
      double low =
          dated.stream()
              .mapToDouble(b -> Objects.requireNonNull(b.fullBloomDayLow()) - HALF_BLOOM)
              .min()
              .orElseThrow();
      double high =
          dated.stream()
              .mapToDouble(b -> Objects.requireNonNull(b.fullBloomDayHigh()) + HALF_BLOOM)
              .max()
              .orElseThrow();
      int step = STEPS[0];
      for (int k = 1; k < STEPS.length && (high - low) / step > MOST_TICKS; k++) step = STEPS[k];
      return new Days(
          (int) Math.floor(low / step) * step, (int) Math.ceil(high / step) * step, step);
    }

    double x(double day) {
      return BARS_X + BARS_WIDTH * (day - from) / (to - from);
    }
  }
}
