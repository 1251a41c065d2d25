package org.understock.service.planting;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.understock.advice.Units;
import org.understock.growth.Density;
import org.understock.planting.PlanText;
import org.understock.planting.PlantingPlan;
import org.understock.planting.PlantingPlan.Tree;
import org.understock.planting.Point;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.wording.Words;

/**
 * A plan drawn to scale: outline, rows with their numbers, every tree by its pairing, crowns where
 * they can be seen, scale bar, north, legend.
 */
final class PlanDrawing {
  private static final double WIDTH = 900;
  private static final double MARGIN = 44;
  private static final double TOP = 84;
  private static final double MOST_HEIGHT = 1000;
  private static final double LINE = 22;

  /** Crowns are drawn for as many trees as one can look at one by one. */
  private static final int MOST_CROWNS = 1500;

  private static final double[] BAR_M = {0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000};

  private final PlantingPlan plan;
  private final Words words;
  private final Units units;
  private final double left;
  private final double top;
  private final double scale;
  private final double mapHeight;
  private final double mark;
  private final double offset;

  private PlanDrawing(PlantingPlan plan, Words words, Units units) {
    this.plan = plan;
    this.words = words;
    this.units = units;
    List<Point> outline = plan.plot().outline();
    left = outline.stream().mapToDouble(Point::xM).min().orElse(0);
    top = outline.stream().mapToDouble(Point::yM).max().orElse(0);
    double wide = outline.stream().mapToDouble(Point::xM).max().orElse(1) - left;
    double high = top - outline.stream().mapToDouble(Point::yM).min().orElse(0);
    scale = Math.min((WIDTH - 2 * MARGIN) / wide, (MOST_HEIGHT - 2 * MARGIN) / high);
    mapHeight = Math.max(90, high * scale);
    offset = (WIDTH - wide * scale) / 2;
    double nearest =
        Math.min(
            plan.rowM(),
            plan.order().stream().mapToDouble(PlantingPlan.Ordered::inRowM).min().orElse(1));
    mark = Math.max(0.8, Math.min(7, nearest * scale * 0.36));
  }

  static String of(PlantingPlan plan, Words words, Units units) {
    return new PlanDrawing(plan, words, units).draw();
  }

  private String draw() {
    int legend = plan.order().size() + (hasPartners() ? 1 : 0);
    double legendTop = TOP + MARGIN + mapHeight + MARGIN + 54;
    double height = legendTop + legend * LINE + 46;
    Drawing drawing = new Drawing(words, WIDTH, height, title(), description());
    drawing.text(
        MARGIN,
        30,
        Drawing.shortened(title(), 90),
        "font-size",
        18,
        "font-weight",
        600,
        "fill",
        Palette.INK);
    drawing.text(MARGIN, 52, Drawing.shortened(figures(), 125), "fill", Palette.INK);
    if (!farthest().isEmpty()) drawing.text(MARGIN, 72, farthest(), "fill", Palette.INK);
    ground(drawing);
    rows(drawing);
    if (plan.trees().size() <= MOST_CROWNS) crowns(drawing);
    trees(drawing);
    north(drawing);
    bar(drawing, TOP + MARGIN + mapHeight + MARGIN + 8);
    legend(drawing, legendTop);
    drawing.text(MARGIN, height - 14, words.say("plan.dig"), "fill", Palette.GREY, "font-size", 12);
    return drawing.finish();
  }

  private String title() {
    return title(plan, words);
  }

  static String title(PlantingPlan plan, Words words) {
    return words.say("plan.title", "trees", plan.trees().size(), "rows", plan.rows());
  }

  private String figures() {
    boolean metric = units == Units.METRIC;
    return words.say(
        "plan.figures." + units.id(),
        "row",
        length(plan.rowM()),
        "inRow",
        length(plan.inRowM()),
        "density",
        Math.round(metric ? plan.treesPerHa() : Density.perAcre(plan.treesPerHa())),
        "area",
        Math.round(
            metric
                ? plan.plot().areaM2()
                : plan.plot().areaM2() / (Units.M_PER_FT * Units.M_PER_FT)));
  }

  private String farthest() {
    return plan.farthestPartnerM() == null
        ? ""
        : words.say("plan.farthest", "distance", length(plan.farthestPartnerM()));
  }

  private String length(double m) {
    return units.length(words, m);
  }

  private String description() {
    List<String> said = new ArrayList<>(List.of(figures()));
    if (!farthest().isEmpty()) said.add(farthest());
    said.add(plan.direction().in(words, units));
    for (PlantingPlan.Ordered order : plan.order())
      said.add(
          words.say(
              "plan.counted",
              "count",
              order.count(),
              "pairing",
              name(order),
              "partner",
              order.partner()));
    if (!plan.partners().failing().isEmpty())
      said.add(words.say("plan.failing", "count", plan.partners().failing().size()));
    return String.join(" ", said);
  }

  private String name(PlantingPlan.Ordered order) {
    return PlanText.named(plan.pairings().get(order.pairing())).in(words, units);
  }

  private boolean hasPartners() {
    return plan.order().stream().anyMatch(o -> o.partner() && o.count() > 0);
  }

  private double x(Point p) {
    return offset + (p.xM() - left) * scale;
  }

  private double y(Point p) {
    return TOP + MARGIN + (top - p.yM()) * scale;
  }

  private void ground(Drawing drawing) {
    drawing.shape(
        "path",
        "d",
        ring(plan.plot().outline()),
        "fill",
        "#FAFAF7",
        "stroke",
        Palette.INK,
        "stroke-width",
        1.5);
    for (List<Point> hole : plan.plot().holes()) {
      drawing.shape(
          "path",
          "d",
          ring(hole),
          "fill",
          Palette.RULE,
          "stroke",
          Palette.INK,
          "stroke-dasharray",
          "4 3");
    }
  }

  private String ring(List<Point> ring) {
    StringBuilder path = new StringBuilder();
    for (Point p : ring)
      path.append(path.isEmpty() ? 'M' : 'L').append(Mark.n(x(p))).append(' ').append(Mark.n(y(p)));
    return path.append('z').toString();
  }

  /**
   * A line from the first to the last tree of each row, and its number before the first; of crowded
   * rows every fifth or tenth.
   */
  private void rows(Drawing drawing) {
    List<Tree> trees = plan.trees();
    double apart = plan.rowM() * scale;
    int every = apart >= 17 ? 1 : apart >= 4 ? 5 : 10;
    double rad = Math.toRadians(plan.rowBearingDeg());
    StringBuilder lines = new StringBuilder();
    drawing.group("", "text-anchor", "middle", "font-size", 11, "fill", Palette.INK);
    for (int i = 0; i < trees.size(); i++) {
      Tree first = trees.get(i);
      if (first.position() > 1) continue;
      int last = i;
      while (last + 1 < trees.size() && trees.get(last + 1).row() == first.row()) last++;
      Point from = first.place();
      Point to = trees.get(last).place();
      lines
          .append('M')
          .append(Mark.n(x(from)))
          .append(' ')
          .append(Mark.n(y(from)))
          .append('L')
          .append(Mark.n(x(to)))
          .append(' ')
          .append(Mark.n(y(to)));
      if (first.row() % every != 0 && first.row() != 1) continue;
      double away = 13 + 1.4 * mark;
      double way = Math.cos(rad) >= -1e-9 ? 1 : -1;
      drawing.text(
          x(from) - way * Math.sin(rad) * away,
          y(from) + way * Math.cos(rad) * away + 4,
          Integer.toString(first.row()));
    }
    drawing.end();
    drawing.shape("path", "d", lines, "stroke", Palette.RULE, "stroke-width", 1, "fill", "none");
  }

  private void crowns(Drawing drawing) {
    StringBuilder path = new StringBuilder();
    for (Tree tree : plan.trees()) {
      double spread = plan.pairings().get(tree.pairing()).expectations().spreadM().median();
      boolean narrow = plan.order().get(tree.pairing()).inRowM() < 0.8 * spread;
      Mark.circle(
          path,
          x(tree.place()),
          y(tree.place()),
          (narrow ? Math.max(1, plan.order().get(tree.pairing()).inRowM()) : spread) / 2 * scale);
    }
    drawing.shape(
        "path",
        "d",
        path,
        "fill",
        Palette.GREEN,
        "fill-opacity",
        0.08,
        "stroke",
        Palette.GREY,
        "stroke-width",
        0.7,
        "stroke-dasharray",
        "3 2");
  }

  private void trees(Drawing drawing) {
    double line = Math.max(0.5, Math.min(1.6, mark * 0.3));
    for (PlantingPlan.Ordered order : plan.order()) {
      if (order.count() == 0) continue;
      Mark kind = Mark.of(order.pairing());
      StringBuilder path = new StringBuilder();
      StringBuilder rings = new StringBuilder();
      for (Tree tree : plan.trees()) {
        if (tree.pairing() != order.pairing()) continue;
        Mark.add(path, order.pairing(), x(tree.place()), y(tree.place()), mark);
        if (order.partner()) Mark.circle(rings, x(tree.place()), y(tree.place()), mark * 1.55 + 1);
      }
      drawing.group(name(order));
      if (order.partner())
        drawing.shape(
            "path",
            "d",
            rings,
            "fill",
            Palette.PAPER,
            "stroke",
            Palette.INK,
            "stroke-width",
            Math.max(0.8, line));
      drawing.shape(
          "path", "d", path, "fill", kind.fill(), "stroke", kind.stroke(), "stroke-width", line);
      drawing.end();
    }
  }

  private void north(Drawing drawing) {
    double x = WIDTH - MARGIN;
    double y = 46;
    drawing.group(
        words.say("plan.north"),
        "transform",
        String.format(Locale.ROOT, "rotate(%.1f %.0f %.0f)", -plan.plot().yAxisBearingDeg(), x, y));
    drawing.shape(
        "path",
        "d",
        "M" + Mark.n(x) + " " + Mark.n(y - 22) + "l7 30-7-6-7 6z",
        "fill",
        Palette.INK);
    drawing.text(
        x,
        y + 24,
        words.say("plan.north.letter"),
        "text-anchor",
        "middle",
        "font-weight",
        600,
        "fill",
        Palette.INK);
    drawing.end();
  }

  private void bar(Drawing drawing, double y) {
    double unit = units == Units.METRIC ? 1 : Units.M_PER_FT;
    double bar = BAR_M[0];
    for (double one : BAR_M) if (one * unit * scale <= 200) bar = one;
    double length = bar * unit * scale;
    for (int k = 0; k < 4; k++) {
      drawing.rect(
          MARGIN + k * length / 4,
          y,
          length / 4,
          6,
          "fill",
          k % 2 == 0 ? Palette.INK : Palette.PAPER,
          "stroke",
          Palette.INK,
          "stroke-width",
          1);
    }
    drawing.text(MARGIN, y + 20, "0", "text-anchor", "middle", "fill", Palette.INK);
    drawing.text(
        MARGIN + length,
        y + 20,
        words.say("length." + units.id(), "x", whole(bar)),
        "text-anchor",
        "middle",
        "fill",
        Palette.INK);
  }

  private void legend(Drawing drawing, double top) {
    double y = top;
    for (PlantingPlan.Ordered order : plan.order()) {
      StringBuilder path = new StringBuilder();
      Mark kind = Mark.of(order.pairing());
      Mark.add(path, order.pairing(), MARGIN + 8, y, 6);
      if (order.partner()) {
        StringBuilder ring = new StringBuilder();
        Mark.circle(ring, MARGIN + 8, y, 10);
        drawing.shape(
            "path", "d", ring, "fill", Palette.PAPER, "stroke", Palette.INK, "stroke-width", 1.2);
      }
      drawing.shape(
          "path", "d", path, "fill", kind.fill(), "stroke", kind.stroke(), "stroke-width", 1.6);
      drawing.text(
          MARGIN + 28,
          y + 5,
          words.say(
              "plan.legend",
              "pairing",
              Drawing.shortened(name(order), 80),
              "count",
              order.count(),
              "spare",
              order.spare(),
              "partner",
              order.partner()),
          "fill",
          Palette.INK);
      y += LINE;
    }
    if (hasPartners())
      drawing.text(MARGIN + 28, y + 5, words.say("plan.legend.partner"), "fill", Palette.GREY);
  }

  private String whole(double x) {
    return words.written(BigDecimal.valueOf(x).stripTrailingZeros());
  }
}
