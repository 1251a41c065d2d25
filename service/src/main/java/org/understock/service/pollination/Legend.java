package org.understock.service.pollination;

import java.util.List;
import org.understock.pollination.BloomTime;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.service.pollination.PollenTable.Mark;
import org.understock.wording.Words;

/** The chart's shapes, and what they mean. */
final class Legend {
  static final double HEIGHT = 90;

  private Legend() {}

  static void draw(Drawing drawing, Words words, double x, double y) {
    drawing.line(x, y, x + 872, y, "stroke", Palette.GREY, "stroke-width", 0.7);
    double first = y + 22;
    range(drawing, x, x + 64, first, 12);
    bloom(drawing, x + 16, x + 48, first, 12);
    note(
        drawing,
        x + 74,
        first,
        words.say(
            "chart.bloom.legend",
            "days",
            BloomTime.SHORT_BLOOM_DAYS,
            "enough",
            BloomTime.ENOUGH_DAYS));
    double second = y + 48;
    double at = x;
    for (String state : List.of("served", "unsure", "unserved")) {
      String meaning = words.say("chart.bloom.state", "state", state);
      state(drawing, at + 8, second, state);
      note(drawing, at + 22, second, meaning);
      at += step(meaning);
    }
    double third = y + 74;
    at = x;
    for (Mark mark : Mark.values()) {
      pollen(drawing, at + 8, third, mark, false);
      note(drawing, at + 22, third, mark.meaning(words));
      at += step(mark.meaning(words));
    }
    pollen(drawing, at + 8, third, Mark.ALL, true);
    note(drawing, at + 22, third, words.say("chart.bloom.own"));
  }

  private static double step(String text) {
    return 44 + 6.6 * text.length();
  }

  private static void note(Drawing drawing, double x, double middle, String text) {
    drawing.text(x, middle + 4, text, "font-size", 12, "fill", Palette.INK);
  }

  /** Where a short bloom lies in 80 of 100 places. */
  static void range(Drawing drawing, double from, double to, double middle, double height) {
    drawing.rect(
        from,
        middle - height / 2,
        to - from,
        height,
        "rx",
        3,
        "fill",
        Palette.SKY,
        "fill-opacity",
        0.3,
        "stroke",
        Palette.BLUE,
        "stroke-width",
        0.7,
        "stroke-dasharray",
        "3 2");
  }

  /** A short bloom around the usual day of full bloom. */
  static void bloom(Drawing drawing, double from, double to, double middle, double height) {
    drawing.rect(from, middle - height / 2, to - from, height, "rx", 3, "fill", Palette.BLUE);
    drawing.shape("circle", "cx", (from + to) / 2, "cy", middle, "r", 3, "fill", Palette.PAPER);
  }

  /** Disc with a tick, ring with a question mark, square with a cross. */
  static void state(Drawing drawing, double x, double y, String state) {
    switch (state) {
      case "served" -> {
        drawing.shape("circle", "cx", x, "cy", y, "r", 8, "fill", Palette.GREEN);
        drawing.shape(
            "path",
            "d",
            path("M%s %s l3 3.4 l5 -6.8", x - 4, y + 0.4),
            "fill",
            "none",
            "stroke",
            Palette.PAPER,
            "stroke-width",
            2);
      }
      case "unsure" -> {
        drawing.shape(
            "circle",
            "cx",
            x,
            "cy",
            y,
            "r",
            7.2,
            "fill",
            Palette.PAPER,
            "stroke",
            Palette.INK,
            "stroke-width",
            1.5);
        drawing.text(
            x, y + 4.5, "?", "text-anchor", "middle", "font-weight", "bold", "fill", Palette.INK);
      }
      default -> {
        drawing.rect(x - 8, y - 8, 16, 16, "fill", Palette.VERMILION);
        drawing.shape(
            "path",
            "d",
            path("M%s %s l8 8 m0 -8 l-8 8", x - 4, y - 4),
            "fill",
            "none",
            "stroke",
            Palette.PAPER,
            "stroke-width",
            2.2);
      }
    }
  }

  /**
   * Whole square, half square, question mark, two bars apart, cross; round for a variety with
   * itself.
   */
  static void pollen(Drawing drawing, double x, double y, Mark mark, boolean itself) {
    switch (mark) {
      case ALL -> {
        if (itself) drawing.shape("circle", "cx", x, "cy", y, "r", 7.5, "fill", Palette.GREEN);
        else drawing.rect(x - 7.5, y - 7.5, 15, 15, "fill", Palette.GREEN);
      }
      case PART -> {
        if (itself) {
          drawing.shape(
              "circle",
              "cx",
              x,
              "cy",
              y,
              "r",
              7,
              "fill",
              Palette.PAPER,
              "stroke",
              Palette.GREEN,
              "stroke-width",
              1.2);
          drawing.shape(
              "path", "d", path("M%s %s a7 7 0 0 0 14 0 z", x - 7, y), "fill", Palette.GREEN);
        } else {
          drawing.rect(
              x - 7,
              y - 7,
              14,
              14,
              "fill",
              Palette.PAPER,
              "stroke",
              Palette.GREEN,
              "stroke-width",
              1.2);
          drawing.shape("path", "d", path("M%s %s v14 h14 z", x - 7, y - 7), "fill", Palette.GREEN);
        }
      }
      case OPEN ->
          drawing.text(
              x, y + 4.5, "?", "text-anchor", "middle", "font-weight", "bold", "fill", Palette.INK);
      case APART -> {
        drawing.rect(x - 8, y - 5, 4, 10, "fill", Palette.GREY);
        drawing.rect(x + 4, y - 5, 4, 10, "fill", Palette.GREY);
      }
      case NONE ->
          drawing.shape(
              "path",
              "d",
              path("M%s %s l7 7 m0 -7 l-7 7", x - 3.5, y - 3.5),
              "fill",
              "none",
              "stroke",
              Palette.GREY,
              "stroke-width",
              1.3);
    }
  }

  private static String path(String form, double x, double y) {
    return form.formatted(Math.round(x * 100) / 100.0, Math.round(y * 100) / 100.0);
  }
}
