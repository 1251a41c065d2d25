package org.understock.service.drawing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.understock.advice.Units;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * A full-grown tree drawn to scale beside a person who reaches up. The likely tree is solid, the
 * low and the high one are lines of dots and dashes around it; heights stand on a scale at the left
 * and as figures at the right, so that nothing is said by colour alone.
 */
public final class TreeFigure {
  private static final double AXIS = 34;
  private static final double LABELS = 130;
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
      return Math.max(heightM.high, TreeShape.REACH_M) * 1.03;
    }
  }

  private final Drawing drawing;
  private final Tree tree;
  private final Units units;
  private final Words words;
  private final TreeShape shape;
  private final double left;
  private final double ground;
  private final double right;
  private final double pxPerM;

  private TreeFigure(
      Drawing drawing,
      Tree tree,
      Units units,
      Words words,
      double x,
      double y,
      double width,
      double height,
      boolean plain) {
    this.drawing = drawing;
    this.tree = tree;
    this.units = units;
    this.words = words;
    double axis = plain ? 4 : AXIS;
    double labels = plain ? 4 : LABELS;
    double below = plain ? 3 : GROUND;
    left = x + axis;
    right = x + width - labels;
    ground = y + height - below;
    double wide = tree.spreadM.high + 1.5;
    pxPerM = Math.min((height - below - 8) / tree.topM(), (right - left) / wide);
    shape = new TreeShape(drawing, tree, left, right, ground, pxPerM);
  }

  /** Draws the figure with its scale and figures into a box. */
  public static void draw(
      Drawing drawing,
      Tree tree,
      Units units,
      Words words,
      double x,
      double y,
      double width,
      double height) {
    TreeFigure figure = new TreeFigure(drawing, tree, units, words, x, y, width, height, false);
    figure.axis();
    figure.shape.draw();
    figure.labels();
    figure.below();
  }

  /** Draws only ground, tree and person, for a place too small for figures. */
  public static void drawPlain(
      Drawing drawing, Tree tree, double x, double y, double width, double height) {
    new TreeFigure(drawing, tree, Units.METRIC, Words.ENGLISH, x, y, width, height, true)
        .shape.draw();
  }

  /** What the figure shows, for those who do not see it. */
  public static String told(Tree tree, Units units, Words words) {
    return words.say(
        "tree.told",
        "person",
        units.length(words, TreeShape.PERSON_M),
        "reach",
        units.length(words, TreeShape.REACH_M),
        "known",
        tree.known,
        "height",
        units.length(words, tree.heightM.likely),
        "spread",
        units.length(words, tree.spreadM.likely),
        "heights",
        units.lengths(words, tree.heightM.low, tree.heightM.high),
        "spreads",
        units.lengths(words, tree.spreadM.low, tree.spreadM.high),
        "post",
        tree.support);
  }

  private double y(double m) {
    return ground - m * pxPerM;
  }

  private void axis() {
    double unit = units == Units.METRIC ? 1 : Units.M_PER_FT;
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
        words.say("tree.unit." + units.id()),
        "font-size",
        11,
        "fill",
        Palette.INK);
  }

  private record Label(double m, String text, String dashes) {}

  /** The heights as figures at the right, moved apart where they would run into each other. */
  private void labels() {
    List<Label> labels = new ArrayList<>();
    labels.add(new Label(tree.heightM.high, height("tree.high", tree.heightM.high), "6 4"));
    labels.add(new Label(tree.heightM.likely, height("tree.likely", tree.heightM.likely), ""));
    labels.add(new Label(tree.heightM.low, height("tree.low", tree.heightM.low), "1.5 3.5"));
    labels.add(new Label(TreeShape.REACH_M, height("tree.reach", TreeShape.REACH_M), "none"));
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
      double from = reach ? shape.personX() - 0.22 * pxPerM : shape.treeX();
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

  private String height(String key, double m) {
    return words.say(key, "length", units.length(words, m), "known", tree.known);
  }

  /** Width of the likely tree, and a bar for scale, under the ground. */
  private void below() {
    double half = tree.spreadM.likely / 2 * pxPerM;
    double x = shape.treeX();
    double at = ground + 12;
    drawing.line(x - half, at, x + half, at, "stroke", Palette.INK);
    for (double end : new double[] {x - half, x + half})
      drawing.line(end, at - 4, end, at + 4, "stroke", Palette.INK);
    drawing.text(
        Math.max(x, left + 74),
        at + 16,
        words.say(
            "tree.wide",
            "length",
            units.length(words, tree.spreadM.likely),
            "range",
            units.lengths(words, tree.spreadM.low, tree.spreadM.high)),
        "text-anchor",
        "middle",
        "font-size",
        12,
        "fill",
        Palette.INK);
    boolean metric = units == Units.METRIC;
    double unit = metric ? 1 : Units.M_PER_FT;
    double most = (LABELS - 30) / pxPerM / unit;
    double bar = 0.5;
    for (double candidate : new double[] {1, 2, 5, 10}) if (candidate <= most) bar = candidate;
    double from = right + 15;
    drawing.line(
        from, at, from + bar * unit * pxPerM, at, "stroke", Palette.INK, "stroke-width", 3);
    drawing.text(
        from,
        at + 16,
        words.say(
            "tree.scale",
            "length",
            Sentence.of(
                "length." + units.id(),
                "x",
                bar < 1 ? words.decimal(bar) : String.valueOf((int) bar))),
        "font-size",
        11,
        "fill",
        Palette.INK);
  }
}
