package org.understock.service.planting;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.springframework.web.util.HtmlUtils;
import org.understock.advice.Units;
import org.understock.planting.PlanText;
import org.understock.planting.PlantingPlan;
import org.understock.planting.PlantingPlan.Tree;
import org.understock.wording.Words;

/**
 * A plan as sheets to print and take to the field: drawing, order, what to put up, which tree goes
 * where row by row, crops, cautions. One page without script or anything from elsewhere; lengths in
 * metres and feet, masses in kilograms and pounds.
 */
final class PlanSheets {

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
  private final Words words;
  private final Units units;
  private final StringBuilder html = new StringBuilder();

  private PlanSheets(PlantingPlan plan, PlantingPlanResponse answer, Words words, Units units) {
    this.plan = plan;
    this.words = words;
    this.units = units;
    this.answer = answer;
  }

  static String of(PlantingPlan plan, PlantingPlanResponse answer, Words words, Units units) {
    return new PlanSheets(plan, answer, words, units).write();
  }

  private String write() {
    String title = PlanDrawing.title(plan, words);
    html.append("<!doctype html>\n<html lang=\"")
        .append(words.language().tag())
        .append("\">\n<head><meta charset=\"utf-8\">")
        .append("<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\"><title>")
        .append(title)
        .append("</title><style>\n")
        .append(STYLE)
        .append("</style></head>\n<body>\n<h1>")
        .append(title)
        .append("</h1>\n");
    paragraph(
        words.say(
            "plan.sheet.layout",
            "row",
            length(plan.rowM()),
            "clear",
            length(plan.clearM()),
            "boundary",
            length(plan.boundaryM()),
            "headland",
            length(plan.headlandM()),
            "direction",
            plan.direction().in(words, units)));
    html.append("<div class=\"drawing\">")
        .append(PlanDrawing.of(plan, words, units))
        .append("</div>\n");
    order();
    support();
    rows();
    crops();
    cautions();
    paragraph(
        words.say(
            "plan.sheet.origin", "revision", answer.revision(), "engine", answer.engineVersion()));
    html.append("</body>\n</html>\n");
    return html.toString();
  }

  private void order() {
    heading("plan.sheet.order", "new");
    head(
        "plan.sheet.order.pairing",
        "n plan.sheet.order.plant",
        "n plan.sheet.order.spare",
        "n plan.sheet.order.order",
        "plan.sheet.order.in-row");
    for (PlantingPlanResponse.Ordered o : answer.order()) {
      html.append("<tr><td>").append(text(o.name()));
      if (o.partner())
        html.append(", <b>").append(text(words.say("plan.sheet.partner"))).append("</b>");
      html.append("</td>");
      number(o.count());
      number(o.spare());
      number(o.count() + o.spare());
      cell(length(o.inRowSpacingM()));
      html.append("</tr>\n");
    }
    html.append("</tbody></table>\n");
    if (answer.farthestPartnerM() != null)
      paragraph(words.say("plan.farthest", "distance", length(answer.farthestPartnerM())));
    if (answer.pollen().failingCount() > 0)
      paragraph(words.say("plan.sheet.failing", "count", answer.pollen().failingCount()));
  }

  private void support() {
    PlantingPlanResponse.Support s = answer.support();
    heading("plan.sheet.up", "");
    html.append("<table><tbody>\n");
    thing(words.say("plan.sheet.up.stakes"), Integer.toString(s.stakes()));
    thing(words.say("plan.sheet.up.posts"), Integer.toString(s.posts()));
    if (s.wires() > 0) thing(words.say("plan.sheet.up.wire", "wires", s.wires()), whole(s.wireM()));
    thing(words.say("plan.sheet.up.guards"), Integer.toString(s.guards()));
    thing(words.say("plan.sheet.up.ties"), Integer.toString(s.ties()));
    thing(words.say("plan.sheet.up.drip"), whole(s.dripLineM()));
    html.append("</tbody></table>\n");
    s.basis().forEach(this::paragraph);
  }

  private void thing(String what, String howMuch) {
    html.append("<tr>");
    cell(what);
    html.append("<td class=\"n\">").append(howMuch).append("</td></tr>\n");
  }

  private void rows() {
    heading("plan.sheet.rows", "new");
    paragraph(words.say("plan.sheet.rows.how"));
    head(
        "n plan.sheet.rows.row",
        "n plan.sheet.rows.trees",
        "plan.sheet.rows.trunks",
        "plan.sheet.rows.plant");
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
    cell(
        row.size() == 1
            ? at(row.get(0))
            : words.say(
                "plan.sheet.rows.to",
                "first",
                at(row.get(0)),
                "last",
                at(row.get(row.size() - 1))));
    Map<Integer, List<Integer>> places = new TreeMap<>();
    for (Tree t : row)
      places.computeIfAbsent(t.pairing(), k -> new ArrayList<>()).add(t.position());
    List<String> lines = new ArrayList<>();
    places.forEach(
        (pairing, at) ->
            lines.add(
                words.say(
                    "plan.sheet.rows.line",
                    "count",
                    at.size(),
                    "pairing",
                    PlanText.named(plan.pairings().get(pairing)).in(words, units),
                    "partner",
                    plan.order().get(pairing).partner(),
                    "all",
                    at.size() == row.size(),
                    "places",
                    spans(at, words))));
    gaps(row, lines);
    List<Integer> failing =
        plan.partners().failing().stream()
            .filter(p -> p.row() == row.get(0).row())
            .map(PlantingPlan.Place::position)
            .sorted()
            .toList();
    if (!failing.isEmpty())
      lines.add(words.say("plan.sheet.rows.failing", "places", spans(failing, words)));
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
            words.say(
                "plan.sheet.rows.gap",
                "length",
                length(step),
                "from",
                row.get(k - 1).position(),
                "to",
                row.get(k).position()));
    }
  }

  /** Whole numbers in rising order with runs drawn together: "1 to 3, 5, 8 to 9". */
  static String spans(List<Integer> rising, Words words) {
    List<String> runs = new ArrayList<>();
    for (int from = 0; from < rising.size(); ) {
      int to = from;
      while (to + 1 < rising.size() && rising.get(to + 1) == rising.get(to) + 1) to++;
      String first = String.valueOf(rising.get(from));
      runs.add(
          to == from
              ? first
              : words.say(
                  "plan.sheet.rows.to", "first", first, "last", String.valueOf(rising.get(to))));
      from = to + 1;
    }
    return String.join(", ", runs);
  }

  private void crops() {
    heading("plan.sheet.crops", "");
    paragraph(words.say("plan.sheet.crops.how", "years", answer.yearsWithoutCrop()));
    head("n plan.sheet.crops.year", "kg", "lb");
    for (PlantingPlanResponse.PlotYield y : answer.yearlyYieldKg()) {
      html.append("<tr>");
      number(y.year());
      cell(crop(y, 1));
      cell(crop(y, Units.KG_PER_LB));
      html.append("</tr>\n");
    }
    html.append("</tbody></table>\n");
  }

  private String crop(PlantingPlanResponse.PlotYield y, double unit) {
    return words.say(
        "plan.sheet.crops.crop",
        "likely",
        Math.round(y.likely() / unit),
        "low",
        Math.round(y.low() / unit),
        "high",
        Math.round(y.high() / unit));
  }

  private void cautions() {
    heading("plan.sheet.begin", "");
    html.append("<ul class=\"caution\">\n");
    for (PlantingPlanResponse.PlanCaution c : answer.cautions())
      html.append("<li>").append(text(c.text())).append("</li>\n");
    html.append("</ul>\n");
  }

  /** Opens a table; an {@code n} before a heading's key is for columns of numbers. */
  private void head(String... keys) {
    html.append("<table><thead><tr>");
    for (String key : keys) {
      boolean number = key.startsWith("n ");
      String heading = number ? key.substring(2) : key;
      html.append(number ? "<th class=\"n\">" : "<th>")
          .append(text(heading.contains(".") ? words.say(heading) : heading))
          .append("</th>");
    }
    html.append("</tr></thead><tbody>\n");
  }

  private void heading(String key, String kind) {
    html.append(kind.isEmpty() ? "<h2>" : "<h2 class=\"" + kind + "\">")
        .append(text(words.say(key)))
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

  private String at(Tree tree) {
    return decimal(tree.place().xM(), 2) + "; " + decimal(tree.place().yM(), 2) + " m";
  }

  private String length(double m) {
    return words.say("plan.both", "metres", decimal(m, 2), "feet", decimal(m / Units.M_PER_FT, 1));
  }

  private String whole(long m) {
    return words.say("plan.both", "metres", m, "feet", Math.round(m / Units.M_PER_FT));
  }

  private String decimal(double x, int digits) {
    return words.decimal(x, digits);
  }

  private static String text(String plain) {
    return HtmlUtils.htmlEscape(plain, "UTF-8");
  }
}
