package org.understock.service.drawing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.understock.advice.Units;
import org.understock.wording.Words;

/**
 * A full-grown tree drawn to scale beside a person who reaches up. The likely tree is solid, the
 * low and the high one are lines of dots and dashes around it; heights stand on a scale at the left
 * and as figures at the right, so that nothing is said by colour alone.
 */
public final class TreeFigure {
  /** Stature of the person, in m (common practice, no source: a middling adult). */
  public static final double PERSON_M = 1.7;

  /** What the person reaches from the ground, in m (common practice, no source). */
  public static final double REACH_M = 2.1;

  private static final double M_PER_FT = 0.3048;
  private static final double AXIS = 34;
  private static final double LABELS = 118;
  private static final double GROUND = 44;
  private static final double LABEL_STEP = 16;

  /** Least, middle and greatest, in m. */
  public record Span(double low, double likely, double high) {}

  /**
   * @param known false where the size is only what is usual; the middle tree is then an outline
   * @param support whether it stands at a post for life
   */
  public record Tree(Span heightM, Span spreadM, boolean known, boolean support) {
    /** Greatest height that the figure has to show, in m. */
    double topM() {
      return Math.max(heightM.high, REACH_M) * 1.03;
    }
  }

  private final Drawing drawing;
  private final Tree tree;
  private final Units units;
  private final double left;
  private final double ground;
  private final double right;
  private final double pxPerM;

  private TreeFigure(
      Drawing drawing,
      Tree tree,
      Units units,
      double x,
      double y,
      double width,
      double height,
      boolean plain) {
    this.drawing = drawing;
    this.tree = tree;
    this.units = units;
    double axis = plain ? 4 : AXIS;
    double labels = plain ? 4 : LABELS;
    double below = plain ? 3 : GROUND;
    left = x + axis;
    right = x + width - labels;
    ground = y + height - below;
    double wide = tree.spreadM.high + 1.5;
    pxPerM = Math.min((height - below - 8) / tree.topM(), (right - left) / wide);
  }

  /** Draws the figure with its scale and figures into a box. */
  public static void draw(
      Drawing drawing, Tree tree, Units units, double x, double y, double width, double height) {
    TreeFigure figure = new TreeFigure(drawing, tree, units, x, y, width, height, false);
    figure.axis();
    figure.plants();
    figure.labels();
    figure.below();
  }

  /** Draws only ground, tree and person, for a place too small for figures. */
  public static void drawPlain(
      Drawing drawing, Tree tree, double x, double y, double width, double height) {
    new TreeFigure(drawing, tree, Units.METRIC, x, y, width, height, true).plants();
  }

  /** What the figure shows, for those who do not see it. */
  public static String told(Tree tree, Units units) {
    return "A tree drawn to scale beside a person of "
        + units.length(Words.ENGLISH, PERSON_M)
        + " who reaches "
        + units.length(Words.ENGLISH, REACH_M)
        + " high. "
        + (tree.known ? "The tree is likely " : "Its size is not on record; usual in the crop is ")
        + units.length(Words.ENGLISH, tree.heightM.likely)
        + " high and "
        + units.length(Words.ENGLISH, tree.spreadM.likely)
        + " wide; in eight of ten places it stands between "
        + units.lengths(Words.ENGLISH, tree.heightM.low, tree.heightM.high)
        + " high and "
        + units.lengths(Words.ENGLISH, tree.spreadM.low, tree.spreadM.high)
        + " wide."
        + (tree.support ? " It stands at a post." : "");
  }

  private double y(double m) {
    return ground - m * pxPerM;
  }

  private double treeX() {
    double used = (tree.spreadM.high + 1.5) * pxPerM;
    return left + Math.max(0, (right - left - used) / 2) + tree.spreadM.high / 2 * pxPerM;
  }

  private double personX() {
    return treeX() + (tree.spreadM.high / 2 + 0.8) * pxPerM;
  }

  private void axis() {
    double unit = units == Units.METRIC ? 1 : M_PER_FT;
    double top = tree.topM() / unit;
    double step = 1;
    for (double candidate : new double[] {1, 2, 5, 10}) {
      step = candidate;
      if (top / step <= 8) break;
    }
    drawing.line(left - 6, ground, left - 6, y(tree.topM()), "stroke", Palette.GREY);
    for (double tick = 0; tick <= top; tick += step) {
      double at = y(tick * unit);
      drawing.line(left - 10, at, left - 6, at, "stroke", Palette.GREY);
      drawing.text(
          left - 13,
          at + 4,
          String.valueOf((int) tick),
          "text-anchor",
          "end",
          "font-size",
          11,
          "fill",
          Palette.INK);
    }
    drawing.text(
        left - 32,
        y(tree.topM()) - 2,
        units == Units.METRIC ? "m" : "ft",
        "font-size",
        11,
        "fill",
        Palette.INK);
  }

  private void plants() {
    drawing.line(left - 6, ground, right, ground, "stroke", Palette.INK, "stroke-width", 1.5);
    double x = treeX();
    crown(tree.heightM.high, tree.spreadM.high, "none", "6 4", 1);
    wood(x);
    crown(tree.heightM.likely, tree.spreadM.likely, tree.known ? Palette.GREEN : "none", "", 1.8);
    if (tree.known) fruit(x);
    crown(tree.heightM.low, tree.spreadM.low, "none", "1.5 3.5", 1.2);
    person(personX());
  }

  private static double clearM(double heightM) {
    return Math.min(0.45 + 0.1 * heightM, 0.34 * heightM);
  }

  /** The outline of a crown: an egg, widest below its middle. */
  private void crown(double heightM, double spreadM, String fill, String dashes, double width) {
    double x = treeX();
    double base = y(clearM(heightM));
    double top = y(heightM);
    double low = 0.826 * spreadM * pxPerM;
    double high = 0.462 * spreadM * pxPerM;
    List<Object> look =
        new ArrayList<>(
            List.of(
                "d",
                "M"
                    + at(x, base)
                    + "C"
                    + at(x - low, base)
                    + " "
                    + at(x - high, top)
                    + " "
                    + at(x, top)
                    + "C"
                    + at(x + high, top)
                    + " "
                    + at(x + low, base)
                    + " "
                    + at(x, base)
                    + "Z",
                "fill",
                fill,
                "stroke",
                Palette.INK,
                "stroke-width",
                width));
    if (!fill.equals("none")) look.addAll(List.of("fill-opacity", 0.28));
    if (!dashes.isEmpty()) look.addAll(List.of("stroke-dasharray", dashes));
    drawing.shape("path", look.toArray());
  }

  /** Trunk, three limbs and, where the tree needs one, a post. */
  private void wood(double x) {
    double height = tree.heightM.likely;
    double trunk = Math.max(1.6, 0.035 * height * pxPerM);
    double fork = clearM(height) + 0.3 * (height - clearM(height));
    if (tree.support) {
      double post = Math.min(height * 0.72, 2.2);
      double at = x + trunk + 0.07 * pxPerM;
      drawing.line(
          at,
          ground,
          at,
          y(post),
          "stroke",
          Palette.INK,
          "stroke-width",
          Math.max(1.2, trunk * 0.6));
      drawing.line(x, y(post * 0.8), at, y(post * 0.8), "stroke", Palette.INK);
    }
    drawing.shape(
        "path",
        "d",
        "M"
            + at(x - trunk, ground)
            + "L"
            + at(x - trunk * 0.6, y(fork))
            + "L"
            + at(x, y(height * 0.86))
            + "L"
            + at(x + trunk * 0.6, y(fork))
            + "L"
            + at(x + trunk, ground)
            + "Z",
        "fill",
        Palette.GREY);
    double reach = tree.spreadM.likely * 0.3 * pxPerM;
    for (double side : new double[] {-1, 1, -0.7}) {
      double from = fork + (side == -0.7 ? 0.22 * (height - fork) : 0);
      drawing.line(
          x,
          y(from),
          x + side * reach,
          y(from + 0.3 * (height - fork)),
          "stroke",
          Palette.GREY,
          "stroke-width",
          Math.max(1, trunk * 0.55),
          "stroke-linecap",
          "round");
    }
  }

  private void fruit(double x) {
    double base = clearM(tree.heightM.likely);
    double crown = tree.heightM.likely - base;
    double[][] places = {
      {-0.3, 0.28}, {0.24, 0.2}, {0.33, 0.42}, {-0.12, 0.5}, {-0.3, 0.6}, {0.16, 0.66}, {0.02, 0.24}
    };
    double size = Math.max(1.6, Math.min(4, 0.06 * pxPerM));
    for (double[] place : places) {
      drawing.shape(
          "circle",
          "cx",
          x + place[0] * tree.spreadM.likely * pxPerM,
          "cy",
          y(base + place[1] * crown),
          "r",
          size,
          "fill",
          Palette.VERMILION,
          "stroke",
          Palette.INK,
          "stroke-width",
          0.5);
    }
  }

  private void person(double x) {
    drawing.group(
        "",
        "stroke",
        Palette.INK,
        "stroke-linecap",
        "round",
        "stroke-linejoin",
        "round",
        "fill",
        "none");
    drawing.shape(
        "circle",
        "cx",
        x,
        "cy",
        y(1.58),
        "r",
        0.115 * pxPerM,
        "fill",
        Palette.INK,
        "stroke",
        "none");
    limb(0.28, x, 1.27, x, 0.98);
    limb(0.12, x - 0.07 * pxPerM, 0.9, x - 0.1 * pxPerM, 0.06);
    limb(0.12, x + 0.07 * pxPerM, 0.9, x + 0.1 * pxPerM, 0.06);
    limb(0.08, x + 0.17 * pxPerM, 1.34, x + 0.27 * pxPerM, 0.85);
    limb(0.08, x - 0.16 * pxPerM, 1.36, x - 0.22 * pxPerM, REACH_M - 0.04);
    drawing.end();
  }

  private void limb(double widthM, double x1, double fromM, double x2, double toM) {
    drawing.line(x1, y(fromM), x2, y(toM), "stroke-width", Math.max(0.8, widthM * pxPerM));
  }

  private record Label(double m, String text, String dashes) {}

  /** The heights as figures at the right, moved apart where they would run into each other. */
  private void labels() {
    List<Label> labels = new ArrayList<>();
    labels.add(
        new Label(
            tree.heightM.high, "high " + units.length(Words.ENGLISH, tree.heightM.high), "6 4"));
    labels.add(
        new Label(
            tree.heightM.likely,
            (tree.known ? "likely " : "middle ") + units.length(Words.ENGLISH, tree.heightM.likely),
            ""));
    labels.add(
        new Label(
            tree.heightM.low, "low " + units.length(Words.ENGLISH, tree.heightM.low), "1.5 3.5"));
    labels.add(new Label(REACH_M, "reach " + units.length(Words.ENGLISH, REACH_M), "none"));
    labels.sort(Comparator.comparingDouble((Label label) -> -label.m));
    double[] at = new double[labels.size()];
    double least = 0;
    for (int k = 0; k < at.length; k++) {
      at[k] = Math.max(y(labels.get(k).m), least);
      least = at[k] + LABEL_STEP;
    }
    double lowest = ground - 2;
    for (int k = at.length - 1; k >= 0; k--) {
      at[k] = Math.min(at[k], lowest);
      lowest = at[k] - LABEL_STEP;
    }
    for (int k = 0; k < at.length; k++) {
      Label label = labels.get(k);
      boolean reach = label.dashes.equals("none");
      double from = reach ? personX() - 0.22 * pxPerM : treeX();
      List<Object> look =
          new ArrayList<>(
              List.of("stroke", reach ? Palette.BLUE : Palette.GREY, "stroke-width", 0.8));
      if (!label.dashes.isEmpty() && !reach) look.addAll(List.of("stroke-dasharray", label.dashes));
      drawing.line(from, y(label.m), right + 2, y(label.m), look.toArray());
      drawing.line(right + 2, y(label.m), right + 12, at[k], look.toArray());
      drawing.text(
          right + 15,
          at[k] + 4,
          label.text,
          "font-size",
          12,
          "font-weight",
          label.dashes.isEmpty() ? "bold" : "normal",
          "fill",
          Palette.INK);
    }
  }

  /** Width of the likely tree, and a bar for scale, under the ground. */
  private void below() {
    double half = tree.spreadM.likely / 2 * pxPerM;
    double x = treeX();
    double at = ground + 12;
    drawing.line(x - half, at, x + half, at, "stroke", Palette.INK);
    for (double end : new double[] {x - half, x + half})
      drawing.line(end, at - 4, end, at + 4, "stroke", Palette.INK);
    drawing.text(
        Math.max(x, left + 74),
        at + 16,
        units.length(Words.ENGLISH, tree.spreadM.likely)
            + " wide ("
            + units.lengths(Words.ENGLISH, tree.spreadM.low, tree.spreadM.high)
            + ")",
        "text-anchor",
        "middle",
        "font-size",
        12,
        "fill",
        Palette.INK);
    boolean metric = units == Units.METRIC;
    double unit = metric ? 1 : M_PER_FT;
    double most = (LABELS - 30) / pxPerM / unit;
    double bar = 0.5;
    for (double candidate : new double[] {1, 2, 5, 10}) if (candidate <= most) bar = candidate;
    double from = right + 15;
    drawing.line(
        from, at, from + bar * unit * pxPerM, at, "stroke", Palette.INK, "stroke-width", 3);
    drawing.text(
        from,
        at + 16,
        (bar < 1 ? "0.5" : String.valueOf((int) bar)) + (metric ? " m" : " ft") + " to scale",
        "font-size",
        11,
        "fill",
        Palette.INK);
  }

  private static String at(double x, double y) {
    return String.format(Locale.ROOT, "%s,%s", Drawing.number(x), Drawing.number(y));
  }
}
