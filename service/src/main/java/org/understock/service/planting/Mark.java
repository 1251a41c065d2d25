package org.understock.service.planting;

import org.understock.service.drawing.Palette;

/**
 * How the trees of one pairing are drawn: marks that differ in black and white, each in a colour of
 * its own besides.
 */
enum Mark {
  DISC(Palette.BLUE, true),
  RING(Palette.VERMILION, false),
  SQUARE(Palette.GREEN, true),
  TRIANGLE(Palette.PURPLE, true),
  CROSS(Palette.INK, false),
  FRAME(Palette.ORANGE, false),
  DIAMOND(Palette.SKY, true),
  PLUS(Palette.BLUE, false),
  GABLE(Palette.VERMILION, false),
  LOZENGE(Palette.GREEN, false);

  private final String colour;
  private final boolean filled;

  Mark(String colour, boolean filled) {
    this.colour = colour;
    this.filled = filled;
  }

  /**
   * The mark of the k-th pairing; from the eleventh on they come again with a bar above, from the
   * twenty-first with one below as well.
   */
  static Mark of(int k) {
    return values()[k % values().length];
  }

  String fill() {
    return filled ? colour : this == CROSS || this == PLUS ? "none" : Palette.PAPER;
  }

  String stroke() {
    return colour;
  }

  /**
   * Adds the k-th pairing's mark to a path, so that a thousand trees are one element. With its bars
   * a mark takes no more room than a bare one.
   */
  static void add(StringBuilder path, int k, double x, double y, double r) {
    int bars = k / values().length;
    if (bars > 2) throw new IllegalArgumentException("no mark for pairing " + k);
    of(k).add(path, x, y, bars == 0 ? r : 0.72 * r);
    for (int bar = 0; bar < bars; bar++) {
      path.append('M')
          .append(n(x - 0.8 * r))
          .append(' ')
          .append(n(y + (bar == 0 ? -1.15 : 1.15) * r))
          .append('h')
          .append(n(1.6 * r));
    }
  }

  private void add(StringBuilder path, double x, double y, double r) {
    switch (this) {
      case DISC, RING -> circle(path, x, y, r);
      case SQUARE, FRAME ->
          path.append('M')
              .append(n(x - 0.85 * r))
              .append(' ')
              .append(n(y - 0.85 * r))
              .append('h')
              .append(n(1.7 * r))
              .append('v')
              .append(n(1.7 * r))
              .append('h')
              .append(n(-1.7 * r))
              .append('z');
      case TRIANGLE, GABLE ->
          path.append('M')
              .append(n(x))
              .append(' ')
              .append(n(y - r))
              .append('l')
              .append(n(r))
              .append(' ')
              .append(n(1.8 * r))
              .append('h')
              .append(n(-2 * r))
              .append('z');
      case DIAMOND, LOZENGE ->
          path.append('M')
              .append(n(x))
              .append(' ')
              .append(n(y - 1.15 * r))
              .append('l')
              .append(n(r))
              .append(' ')
              .append(n(1.15 * r))
              .append('l')
              .append(n(-r))
              .append(' ')
              .append(n(1.15 * r))
              .append('l')
              .append(n(-r))
              .append(' ')
              .append(n(-1.15 * r))
              .append('z');
      case CROSS ->
          path.append('M')
              .append(n(x - 0.8 * r))
              .append(' ')
              .append(n(y - 0.8 * r))
              .append('l')
              .append(n(1.6 * r))
              .append(' ')
              .append(n(1.6 * r))
              .append('m')
              .append(n(-1.6 * r))
              .append(" 0l")
              .append(n(1.6 * r))
              .append(' ')
              .append(n(-1.6 * r));
      case PLUS ->
          path.append('M')
              .append(n(x - r))
              .append(' ')
              .append(n(y))
              .append('h')
              .append(n(2 * r))
              .append('M')
              .append(n(x))
              .append(' ')
              .append(n(y - r))
              .append('v')
              .append(n(2 * r));
    }
  }

  static void circle(StringBuilder path, double x, double y, double r) {
    path.append('M')
        .append(n(x - r))
        .append(' ')
        .append(n(y))
        .append('a')
        .append(n(r))
        .append(' ')
        .append(n(r))
        .append(" 0 1 0 ")
        .append(n(2 * r))
        .append(" 0 ")
        .append(n(r))
        .append(' ')
        .append(n(r))
        .append(" 0 1 0 ")
        .append(n(-2 * r))
        .append(" 0");
  }

  /** A number of a path, in hundredths of a pixel, as short as can be. */
  static String n(double value) {
    long hundredths = Math.round(value * 100);
    if (hundredths % 100 == 0) return Long.toString(hundredths / 100);
    String sign = hundredths < 0 ? "-" : "";
    long abs = Math.abs(hundredths);
    String whole = sign + abs / 100 + ".";
    return abs % 10 == 0 ? whole + abs % 100 / 10 : whole + (abs % 100 < 10 ? "0" : "") + abs % 100;
  }
}
