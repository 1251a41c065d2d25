package org.understock.service.planting;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.economics.Spread;
import org.understock.planting.Comparison;
import org.understock.planting.Comparison.Compared;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.wording.Words;

/**
 * What plantings have brought, or borne, to the end of each year: a line for the middle with a mark
 * of its own and its name at its end, and a band from the 10th to the 90th percentile. Of many
 * plantings the bands would cover each other, so that they are told in figures.
 */
final class ComparisonDrawing {
  private static final double WIDTH = 900;
  private static final double LEFT = 86;
  private static final double RIGHT = 545;
  private static final double TOP = 100;
  private static final double BOTTOM = 470;
  private static final double HEIGHT = 566;
  private static final double LABEL = 34;
  private static final int MOST_BANDS = 3;
  private static final int TICKS = 6;

  private final Comparison comparison;
  private final double bottom;
  private final double height;
  private double low;
  private double high;
  private double step;

  private ComparisonDrawing(Comparison comparison) {
    this.comparison = comparison;
    double more = Math.max(0, comparison.plantings().size() * LABEL - (BOTTOM - TOP) - 20);
    bottom = BOTTOM + more;
    height = HEIGHT + more;
    scale();
  }

  static String of(Comparison comparison) {
    return new ComparisonDrawing(comparison).draw();
  }

  private boolean banded() {
    return comparison.plantings().size() <= MOST_BANDS;
  }

  private void scale() {
    low = 0;
    high = 0;
    for (Compared planting : comparison.plantings()) {
      for (Spread s : planting.line()) {
        low = Math.min(low, banded() ? value(s.low()) : value(s.likely()));
        high = Math.max(high, banded() ? value(s.high()) : value(s.likely()));
      }
    }
    if (high - low < 1e-9) high = low + 1;
    double raw = (high - low) / TICKS;
    double power = Math.pow(10, Math.floor(Math.log10(raw)));
    step = 10 * power;
    for (double part : new double[] {5, 2, 1}) if (part * power >= raw) step = part * power;
    double air = 0.03 * (high - low);
    if (low < 0) low -= air;
    high += air;
  }

  private String draw() {
    Drawing drawing = new Drawing(Words.ENGLISH, WIDTH, height, title(), description());
    drawing.text(LEFT - 50, 30, title(), "font-size", 18, "font-weight", 600, "fill", Palette.INK);
    List<String> lines = folded(comparison.text(), 125);
    for (int k = 0; k < Math.min(2, lines.size()); k++) {
      String line = k == 1 && lines.size() > 2 ? lines.get(1) + " …" : lines.get(k);
      drawing.text(LEFT - 50, 53 + 18 * k, line, "fill", Palette.INK);
    }
    axes(drawing);
    for (Compared planting : comparison.plantings()) if (banded()) band(drawing, planting);
    for (int k = comparison.plantings().size() - 1; k >= 0; k--)
      line(drawing, comparison.plantings().get(k));
    labels(drawing);
    drawing.text(
        LEFT - 50,
        height - 30,
        comparison.plantings().size() <= MOST_BANDS
            ? "Lines: as likely more as less. Bands: eight chances in ten."
            : "Lines: as likely more as less. In brackets: eight chances in ten at the end.",
        "fill",
        Palette.GREY,
        "font-size",
        12);
    drawing.text(
        LEFT - 50,
        height - 12,
        comparison.byMoney()
            ? "By the asker's own prices and costs, not discounted; taxes, loans and subsidies not counted. No financial advice."
            : "Until the trees are spent. Hail, frost and care can undo any plan.",
        "fill",
        Palette.GREY,
        "font-size",
        12);
    return drawing.finish();
  }

  private String title() {
    return comparison.byMoney() ? "Money to the end of each year" : "Fruit to the end of each year";
  }

  private String unit() {
    if (!comparison.byMoney()) return "kg";
    String currency =
        Objects.requireNonNull(comparison.plantings().get(0).account()).money().currency();
    return currency == null ? "money" : currency;
  }

  private String description() {
    StringBuilder text = new StringBuilder(comparison.text());
    for (Compared planting : comparison.plantings()) {
      List<Spread> line = planting.line();
      text.append(' ')
          .append(planting.pairing().names())
          .append(" at the end of year ")
          .append(line.size() - 1)
          .append(": ")
          .append(number(value(line.get(line.size() - 1).likely())))
          .append(' ')
          .append(unit())
          .append('.');
    }
    return text.toString();
  }

  private double x(double year) {
    return LEFT + (RIGHT - LEFT) * year / comparison.years();
  }

  private double y(double value) {
    return bottom - (bottom - TOP) * (value - low) / (high - low);
  }

  private void axes(Drawing drawing) {
    drawing.text(LEFT - 50, TOP - 10, unit(), "fill", Palette.GREY, "font-size", 12);
    for (long k = (long) Math.ceil(low / step); k <= (long) Math.floor(high / step); k++) {
      double at = y(k * step);
      drawing.line(
          LEFT,
          at,
          RIGHT,
          at,
          "stroke",
          k == 0 ? Palette.INK : Palette.RULE,
          "stroke-width",
          k == 0 ? 1.4 : 0.8);
      drawing.text(LEFT - 8, at + 4, number(k * step), "text-anchor", "end", "fill", Palette.INK);
    }
    int years = comparison.years();
    int every = years <= 12 ? 1 : years <= 30 ? 5 : 10;
    for (int year = 0; year <= years; year += every) {
      drawing.line(x(year), bottom, x(year), bottom + 5, "stroke", Palette.INK, "stroke-width", 1);
      drawing.text(
          x(year),
          bottom + 20,
          Integer.toString(year),
          "text-anchor",
          "middle",
          "fill",
          Palette.INK);
    }
    drawing.text(
        (LEFT + RIGHT) / 2,
        bottom + 40,
        "years from planting",
        "text-anchor",
        "middle",
        "fill",
        Palette.GREY,
        "font-size",
        12);
  }

  private void band(Drawing drawing, Compared planting) {
    List<Spread> line = planting.line();
    StringBuilder path = new StringBuilder();
    for (int t = 0; t < line.size(); t++) point(path, t, value(line.get(t).high()));
    for (int t = line.size() - 1; t >= 0; t--) point(path, t, value(line.get(t).low()));
    String colour = Mark.of(planting.rank() - 1).stroke();
    drawing.shape(
        "path",
        "d",
        path.append('z'),
        "fill",
        colour,
        "fill-opacity",
        0.12,
        "stroke",
        colour,
        "stroke-opacity",
        0.5,
        "stroke-width",
        0.8,
        "stroke-dasharray",
        dashes(planting.rank() - 1));
  }

  private void point(StringBuilder path, int year, double value) {
    path.append(path.isEmpty() ? 'M' : 'L')
        .append(Mark.n(x(year)))
        .append(' ')
        .append(Mark.n(y(value)));
  }

  private void line(Drawing drawing, Compared planting) {
    List<Spread> line = planting.line();
    StringBuilder path = new StringBuilder();
    for (int t = 0; t < line.size(); t++) point(path, t, value(line.get(t).likely()));
    Mark mark = Mark.of(planting.rank() - 1);
    StringBuilder marks = new StringBuilder();
    int every = Math.max(1, (line.size() - 1) / 6);
    int shift = planting.rank() % every; // so that marks of near lines do not cover each other
    for (int t = shift; t < line.size(); t += every)
      Mark.add(marks, planting.rank() - 1, x(t), y(value(line.get(t).likely())), 4.5);
    drawing.group(planting.pairing().names());
    drawing.shape("path", "d", path, "fill", "none", "stroke", mark.stroke(), "stroke-width", 2.2);
    drawing.shape(
        "path", "d", marks, "fill", mark.fill(), "stroke", mark.stroke(), "stroke-width", 1.6);
    drawing.end();
  }

  /** Bands of the first few are told apart without colour by their edges. */
  private static String dashes(int k) {
    return k == 0 ? "none" : k == 1 ? "5 3" : "1.5 3";
  }

  /** Names at the ends of the lines, moved apart where they would cover each other. */
  private void labels(Drawing drawing) {
    List<Compared> byHeight = new ArrayList<>(comparison.plantings());
    byHeight.sort(Comparator.comparingDouble(p -> y(end(p))));
    double[] at = new double[byHeight.size()];
    for (int k = 0; k < at.length; k++) {
      double least = k == 0 ? TOP : at[k - 1] + LABEL;
      at[k] = Math.max(least, y(end(byHeight.get(k))));
    }
    for (int k = at.length - 1; k >= 0; k--) {
      double most = k == at.length - 1 ? bottom : at[k + 1] - LABEL;
      at[k] = Math.min(at[k], most);
    }
    for (int k = 0; k < at.length; k++) {
      Compared planting = byHeight.get(k);
      Mark mark = Mark.of(planting.rank() - 1);
      drawing.line(
          RIGHT + 3,
          y(end(planting)),
          RIGHT + 20,
          at[k],
          "stroke",
          Palette.GREY,
          "stroke-width",
          0.8);
      StringBuilder path = new StringBuilder();
      Mark.add(path, planting.rank() - 1, RIGHT + 29, at[k], 5);
      drawing.shape(
          "path", "d", path, "fill", mark.fill(), "stroke", mark.stroke(), "stroke-width", 1.6);
      drawing.text(
          RIGHT + 42,
          at[k] + 1,
          Drawing.shortened(planting.pairing().names(), 36),
          "fill",
          Palette.INK,
          "font-weight",
          600);
      drawing.text(RIGHT + 42, at[k] + 16, outcome(planting), "fill", Palette.INK, "font-size", 12);
    }
  }

  private String outcome(Compared planting) {
    Spread end = planting.line().get(planting.line().size() - 1);
    String best = Math.round(100 * planting.chanceBest()) + " of 100";
    return banded()
        ? number(end(planting)) + " " + Drawing.shortened(unit(), 14) + ", best in " + best
        : number(end(planting))
            + " ("
            + number(value(end.low()))
            + " to "
            + number(value(end.high()))
            + "), best "
            + best;
  }

  private static double end(Compared planting) {
    return value(planting.line().get(planting.line().size() - 1).likely());
  }

  private static double value(@Nullable Double x) {
    return x == null ? 0 : x;
  }

  /** Three digits, thousands apart. */
  private static String number(double x) {
    if (x == 0) return "0";
    BigDecimal rounded =
        new BigDecimal(x).round(new java.math.MathContext(3, RoundingMode.HALF_UP));
    if (rounded.abs().compareTo(BigDecimal.valueOf(100)) < 0)
      return rounded.stripTrailingZeros().toPlainString().replace('-', '−');
    StringBuilder digits =
        new StringBuilder(rounded.abs().setScale(0, RoundingMode.HALF_UP).toPlainString());
    for (int k = digits.length() - 3; k > 0 && digits.length() > 4; k -= 3) digits.insert(k, ' ');
    return (rounded.signum() < 0 ? "−" : "") + digits;
  }

  private static List<String> folded(String text, int most) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ")) {
      if (!line.isEmpty() && line.length() + 1 + word.length() > most) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.isEmpty() ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }
}
