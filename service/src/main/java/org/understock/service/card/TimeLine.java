package org.understock.service.card;

import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;

/**
 * The tree's years from planting on: first crop, full crop, end of its productive life, each as the
 * range from low to high with the likely year marked.
 */
final class TimeLine {
  private static final double NAMES = 84;
  private static final double WORDS = 144;
  private static final double STEP = 24;

  private TimeLine() {}

  static double height() {
    return 3 * STEP + 26;
  }

  static void draw(
      Drawing drawing, CardResponse.Tree tree, Said said, double x, double y, double width) {
    double left = x + NAMES;
    double right = x + width - WORDS;
    double most = Math.max(5, tree.productiveLifeYears().high());
    double pxPerYear = (right - left) / most;
    double foot = y + 3 * STEP + 4;
    int step = step(most);
    for (int year = 0; year <= most; year += step) {
      double at = left + year * pxPerYear;
      drawing.line(at, y, at, foot + 4, "stroke", Palette.RULE);
      drawing.text(
          at,
          foot + 16,
          String.valueOf(year),
          "text-anchor",
          "middle",
          "font-size",
          11,
          "fill",
          Palette.INK);
    }
    drawing.text(
        x, foot + 16, said.words().say("card.line.year"), "font-size", 11, "fill", Palette.INK);
    drawing.line(left, foot, right, foot, "stroke", Palette.INK);
    row(
        drawing,
        x,
        y,
        left,
        right,
        pxPerYear,
        said.words().say("card.line.first"),
        tree.firstCropYear(),
        said.year(tree.firstCropYear()),
        Palette.ORANGE);
    row(
        drawing,
        x,
        y + STEP,
        left,
        right,
        pxPerYear,
        said.words().say("card.line.full"),
        tree.fullCropYear(),
        said.year(tree.fullCropYear()),
        Palette.GREEN);
    row(
        drawing,
        x,
        y + 2 * STEP,
        left,
        right,
        pxPerYear,
        said.words().say("card.line.life"),
        tree.productiveLifeYears(),
        said.years(tree.productiveLifeYears()),
        Palette.SKY);
  }

  private static void row(
      Drawing drawing,
      double x,
      double y,
      double left,
      double right,
      double pxPerYear,
      String name,
      CardResponse.Years years,
      String words,
      String colour) {
    double middle = y + STEP / 2;
    drawing.text(x, middle + 4, name, "font-size", 13, "fill", Palette.INK);
    double from = left + (years.low() - (years.low() == years.high() ? 0.3 : 0)) * pxPerYear;
    double to = left + (years.high() + (years.low() == years.high() ? 0.3 : 0)) * pxPerYear;
    drawing.line(left, middle, from, middle, "stroke", Palette.GREY, "stroke-dasharray", "2 3");
    drawing.rect(
        from,
        middle - 7,
        Math.max(2, to - from),
        14,
        "fill",
        colour,
        "stroke",
        Palette.INK,
        "stroke-width",
        0.8);
    double likely = left + years.likely() * pxPerYear;
    drawing.line(
        likely, middle - 10, likely, middle + 10, "stroke", Palette.INK, "stroke-width", 2.5);
    drawing.text(
        right + 10, middle + 4, words, "font-size", 12, "font-weight", "bold", "fill", Palette.INK);
  }

  private static int step(double most) {
    for (int step : new int[] {1, 2, 5, 10, 20}) if (most / step <= 10) return step;
    return 50;
  }

  /** What it shows, for those who do not see it. */
  static String told(CardResponse.Tree tree, Said said) {
    return said.words()
        .say(
            "card.time.told",
            "first",
            said.year(tree.firstCropYear()),
            "full",
            said.year(tree.fullCropYear()),
            "life",
            said.years(tree.productiveLifeYears()));
  }
}
