package org.understock.service.planting;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.springframework.web.util.HtmlUtils;
import org.understock.planting.PlantingPlan;
import org.understock.planting.PlantingPlan.Tree;

/**
 * A plan as sheets to print and take to the field: drawing, order, what to put up, which tree goes
 * where row by row, crops, cautions. One page without script or anything from elsewhere; lengths in
 * metres and feet, masses in kilograms and pounds.
 */
final class PlanSheets {
  private static final double M_PER_FT = 0.3048;
  private static final double KG_PER_LB = 0.45359237;

  /** A step in a row this many times the widest spacing is told as a gap. A judgement. */
  private static final double GAP = 1.5;

  private static final String STYLE =
      """
      @page{margin:14mm}
      body{font:15px/1.4 system-ui,'DejaVu Sans',Arial,sans-serif;color:#222;background:#fff;max-width:60rem;margin:0 auto;padding:1rem}
      h1{font-size:1.5rem;margin:0 0 .5rem}h2{font-size:1.15rem;margin:1.6rem 0 .4rem;border-bottom:1px solid #222}
      table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.25rem .5rem .25rem 0;border-bottom:1px solid #bbb;overflow-wrap:anywhere}
      td.n,th.n{text-align:right;white-space:nowrap;padding-right:1rem}thead{display:table-header-group}tr,li{break-inside:avoid}h2{break-after:avoid}
      .drawing{overflow-x:auto}.drawing svg{display:block;width:100%;height:auto;min-width:38rem}
      .caution{border:2px solid #222;padding:.5rem 1rem .5rem 2rem}
      @media print{body{max-width:none;padding:0;font-size:10.5pt}.drawing svg{min-width:0;max-height:225mm}.new{break-before:page}}
      """;

  private final PlantingPlan plan;
  private final PlantingPlanResponse answer;
  private final StringBuilder html = new StringBuilder();

  private PlanSheets(PlantingPlan plan, PlantingPlanResponse answer) {
    this.plan = plan;
    this.answer = answer;
  }

  static String of(PlantingPlan plan, PlantingPlanResponse answer) {
    return new PlanSheets(plan, answer).write();
  }

  private String write() {
    String title =
        "Planting plan: "
            + counted(answer.treeCount(), "tree")
            + " in "
            + counted(answer.rows(), "row");
    html.append("<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\">")
        .append("<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\"><title>")
        .append(title)
        .append("</title><style>\n")
        .append(STYLE)
        .append("</style></head>\n<body>\n<h1>")
        .append(title)
        .append("</h1>\n");
    paragraph(
        "Rows "
            + length(plan.rowM())
            + " apart; clear between full-grown crowns of two rows "
            + length(plan.clearM())
            + ". Kept free: "
            + length(plan.boundaryM())
            + " along the outline, "
            + length(plan.headlandM())
            + " at the ends of rows. "
            + plan.direction());
    html.append("<div class=\"drawing\">").append(PlanDrawing.of(plan)).append("</div>\n");
    order();
    support();
    rows();
    crops();
    cautions();
    html.append("<p>Drawn up from revision ")
        .append(answer.revision())
        .append(" of the evidence by engine ")
        .append(text(answer.engineVersion()))
        .append(
            "; the sources of each pairing's expectations are in its advice of the same revision.</p>\n</body>\n</html>\n");
    return html.toString();
  }

  private void order() {
    heading("Trees to order", "new");
    html.append(
        "<table><thead><tr><th>Pairing</th><th class=\"n\">Plant</th><th class=\"n\">Spare</th><th class=\"n\">Order</th><th>In the row</th></tr></thead><tbody>\n");
    for (PlantingPlanResponse.Ordered o : answer.order()) {
      html.append("<tr><td>").append(text(o.name()));
      if (o.partner()) html.append(", <b>pollen partner</b>");
      html.append("</td>");
      number(o.count());
      number(o.spare());
      number(o.count() + o.spare());
      cell(length(o.inRowSpacingM()));
      html.append("</tr>\n");
    }
    html.append("</tbody></table>\n");
    if (answer.farthestPartnerM() != null)
      paragraph(
          "No tree is farther than "
              + length(answer.farthestPartnerM())
              + " from the pollen partners it needs.");
    if (answer.pollen().failingCount() > 0)
      paragraph(
          counted(answer.pollen().failingCount(), "tree")
              + " without a partner in reach: see “no partner in reach” in the rows below.");
  }

  private void support() {
    PlantingPlanResponse.Support s = answer.support();
    heading("To put up", "");
    html.append("<table><tbody>\n");
    thing("Stakes, to come out when the tree stands", Integer.toString(s.stakes()));
    thing("Posts", Integer.toString(s.posts()));
    if (s.wires() > 0)
      thing("Wire, " + counted(s.wires(), "wire") + " one above another", whole(s.wireM()));
    thing("Tree guards", Integer.toString(s.guards()));
    thing("Ties", Integer.toString(s.ties()));
    thing("Drip line", whole(s.dripLineM()));
    html.append("</tbody></table>\n");
    s.basis().forEach(this::paragraph);
  }

  private void thing(String what, String howMuch) {
    html.append("<tr>");
    cell(what);
    html.append("<td class=\"n\">").append(howMuch).append("</td></tr>\n");
  }

  private void rows() {
    heading("Row by row", "new");
    paragraph(
        "Places are counted from 1 in each row, from the end that bears the row's number on the drawing. x and y are measured "
            + "on the plot as it was given.");
    html.append(
        "<table><thead><tr><th class=\"n\">Row</th><th class=\"n\">Trees</th><th>First and last trunk (x, y)</th><th>Plant</th></tr></thead><tbody>\n");
    List<Tree> trees = plan.trees();
    for (int from = 0; from < trees.size(); ) {
      int to = from + 1;
      while (to < trees.size() && trees.get(to).row() == trees.get(from).row()) to++;
      row(trees.subList(from, to));
      from = to;
    }
    html.append("</tbody></table>\n");
  }

  private void row(List<Tree> row) {
    html.append("<tr>");
    number(row.get(0).row());
    number(row.size());
    cell(at(row.get(0)) + (row.size() == 1 ? "" : " to " + at(row.get(row.size() - 1))));
    Map<Integer, List<Integer>> places = new TreeMap<>();
    for (Tree t : row)
      places.computeIfAbsent(t.pairing(), k -> new ArrayList<>()).add(t.position());
    List<String> lines = new ArrayList<>();
    places.forEach(
        (pairing, at) ->
            lines.add(
                at.size()
                    + " × "
                    + plan.pairings().get(pairing).names()
                    + (plan.order().get(pairing).partner() ? " (pollen partner)" : "")
                    + (at.size() == row.size() ? "" : " at " + spans(at))));
    gaps(row, lines);
    List<Integer> failing =
        plan.partners().failing().stream()
            .filter(p -> p.row() == row.get(0).row())
            .map(PlantingPlan.Place::position)
            .sorted()
            .toList();
    if (!failing.isEmpty()) lines.add("no partner in reach at " + spans(failing));
    html.append("<td>")
        .append(String.join("<br>", lines.stream().map(PlanSheets::text).toList()))
        .append("</td></tr>\n");
  }

  private void gaps(List<Tree> row, List<String> lines) {
    double widest = plan.order().stream().mapToDouble(PlantingPlan.Ordered::inRowM).max().orElse(1);
    for (int k = 1; k < row.size(); k++) {
      double step =
          Math.hypot(
              row.get(k).place().xM() - row.get(k - 1).place().xM(),
              row.get(k).place().yM() - row.get(k - 1).place().yM());
      if (step > GAP * widest)
        lines.add(
            "a gap of "
                + length(step)
                + " between "
                + row.get(k - 1).position()
                + " and "
                + row.get(k).position());
    }
  }

  /** Whole numbers in rising order with runs drawn together: "1 to 3, 5, 8 to 9". */
  static String spans(List<Integer> rising) {
    StringBuilder text = new StringBuilder();
    for (int from = 0; from < rising.size(); ) {
      int to = from;
      while (to + 1 < rising.size() && rising.get(to + 1) == rising.get(to) + 1) to++;
      if (from > 0) text.append(", ");
      text.append(rising.get(from));
      if (to > from) text.append(" to ").append(rising.get(to));
      from = to + 1;
    }
    return text.toString();
  }

  private void crops() {
    heading("Crop of the whole planting", "");
    paragraph(
        "Likely, and in brackets from a low year in ten to a high one in ten. "
            + (answer.yearsWithoutCrop() == 0
                ? ""
                : "The first "
                    + counted(answer.yearsWithoutCrop(), "year")
                    + " more likely than not bear nothing."));
    html.append(
        "<table><thead><tr><th class=\"n\">Year</th><th>kg</th><th>lb</th></tr></thead><tbody>\n");
    for (PlantingPlanResponse.PlotYield y : answer.yearlyYieldKg()) {
      html.append("<tr>");
      number(y.year());
      cell(crop(y, 1));
      cell(crop(y, KG_PER_LB));
      html.append("</tr>\n");
    }
    html.append("</tbody></table>\n");
  }

  private static String crop(PlantingPlanResponse.PlotYield y, double unit) {
    return Math.round(y.likely() / unit)
        + " ("
        + Math.round(y.low() / unit)
        + " to "
        + Math.round(y.high() / unit)
        + ")";
  }

  private void cautions() {
    heading("Before you begin", "");
    html.append("<ul class=\"caution\">\n");
    for (PlantingPlanResponse.PlanCaution c : answer.cautions())
      html.append("<li>").append(text(c.text())).append("</li>\n");
    html.append("</ul>\n");
  }

  private void heading(String heading, String kind) {
    html.append(kind.isEmpty() ? "<h2>" : "<h2 class=\"" + kind + "\">")
        .append(text(heading))
        .append("</h2>\n");
  }

  private void paragraph(String line) {
    html.append("<p>").append(text(line)).append("</p>\n");
  }

  private void cell(String content) {
    html.append("<td>").append(text(content)).append("</td>");
  }

  private void number(int n) {
    html.append("<td class=\"n\">").append(n).append("</td>");
  }

  private static String at(Tree tree) {
    return String.format(Locale.ROOT, "%.2f, %.2f m", tree.place().xM(), tree.place().yM());
  }

  private static String counted(int n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }

  private static String length(double m) {
    return String.format(Locale.ROOT, "%.2f m (%.1f ft)", m, m / M_PER_FT);
  }

  private static String whole(long m) {
    return m + " m (" + Math.round(m / M_PER_FT) + " ft)";
  }

  private static String text(String plain) {
    return HtmlUtils.htmlEscape(plain, "UTF-8");
  }
}
