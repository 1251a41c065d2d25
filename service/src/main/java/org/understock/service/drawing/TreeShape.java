package org.understock.service.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.understock.service.drawing.TreeFigure.Tree;

/** Ground, tree and person of a {@link TreeFigure}, without scale and figures. */
final class TreeShape {
  /** Stature of the person, in m (common practice, no source: a middling adult). */
  static final double PERSON_M = 1.7;

  /** What the person reaches from the ground, in m (common practice, no source). */
  static final double REACH_M = 2.1;

  private final Drawing drawing;
  private final Tree tree;
  private final double left;
  private final double right;
  private final double ground;
  private final double pxPerM;

  TreeShape(Drawing drawing, Tree tree, double left, double right, double ground, double pxPerM) {
    this.drawing = drawing;
    this.tree = tree;
    this.left = left;
    this.right = right;
    this.ground = ground;
    this.pxPerM = pxPerM;
  }

  private double y(double m) {
    return ground - m * pxPerM;
  }

  double treeX() {
    double used = (tree.spreadM().high() + 1.5) * pxPerM;
    return left + Math.max(0, (right - left - used) / 2) + tree.spreadM().high() / 2 * pxPerM;
  }

  double personX() {
    return treeX() + (tree.spreadM().high() / 2 + 0.8) * pxPerM;
  }

  void draw() {
    drawing.line(left - 6, ground, right, ground, "stroke", Palette.INK, "stroke-width", 1.5);
    double x = treeX();
    crown(tree.heightM().high(), tree.spreadM().high(), "none", "6 4", 1);
    wood(x);
    crown(
        tree.heightM().likely(),
        tree.spreadM().likely(),
        tree.known() ? Palette.GREEN : "none",
        "",
        1.8);
    if (tree.known()) fruit(x);
    crown(tree.heightM().low(), tree.spreadM().low(), "none", "1.5 3.5", 1.2);
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
    double height = tree.heightM().likely();
    double trunk = Math.max(1.6, 0.035 * height * pxPerM);
    double fork = clearM(height) + 0.3 * (height - clearM(height));
    if (tree.support()) {
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
    double reach = tree.spreadM().likely() * 0.3 * pxPerM;
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
    double base = clearM(tree.heightM().likely());
    double crown = tree.heightM().likely() - base;
    double[][] places = {
      {-0.3, 0.28}, {0.24, 0.2}, {0.33, 0.42}, {-0.12, 0.5}, {-0.3, 0.6}, {0.16, 0.66}, {0.02, 0.24}
    };
    double size = Math.max(1.6, Math.min(4, 0.06 * pxPerM));
    for (double[] place : places) {
      drawing.shape(
          "circle",
          "cx",
          x + place[0] * tree.spreadM().likely() * pxPerM,
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

  private static String at(double x, double y) {
    return String.format(Locale.ROOT, "%s,%s", Drawing.number(x), Drawing.number(y));
  }
}
