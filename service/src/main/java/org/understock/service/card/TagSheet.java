package org.understock.service.card;

import java.util.List;
import java.util.Locale;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.TreeFigure;

/**
 * Tags to tie to trees: sheets of fronts and sheets of backs by turns. The columns of the backs run
 * the other way, so that back meets front when a sheet is printed on both sides and turned over its
 * long edge; the block of tags stands in the middle of the sheet for the same reason.
 */
final class TagSheet {
  static final int COLUMNS = 2;
  static final int ROWS = 4;
  static final int PER_SHEET = COLUMNS * ROWS;
  static final int MOST = 10 * PER_SHEET;

  private static final double TAG_WIDTH_MM = 92;
  private static final double TAG_HEIGHT_MM = 62;
  private static final double HOLE_MM = 6;
  private static final double MARK_MM = 4;
  private static final int SENTENCE = 150;

  private static final String STYLE =
      """
      *{box-sizing:border-box}
      body{margin:0;background:#e9e9e4;color:#222;font:7.4pt/1.25 system-ui,'Segoe UI','DejaVu Sans',Arial,sans-serif}
      h1,h2,p,ul,ol{margin:0}
      .how{max-width:760px;margin:0 auto;padding:16px 20px;font-size:15px;line-height:1.45}
      .how h1{font-size:1.4em}
      .how ol{padding-left:1.3em}
      .sheet{position:relative;width:WIDTHmm;height:HEIGHTmm;margin:0 auto 8mm;background:#fff;overflow:hidden;break-after:page}
      .sheet:last-child{break-after:auto}
      .marks{position:absolute;left:0;top:0;width:100%;height:100%}
      .tag{position:absolute;width:TAGWmm;height:TAGHmm;padding:3mm 3.5mm;overflow:hidden}
      .front{padding-left:12mm}
      .back{padding-right:12mm}
      .tag h2{font-size:13pt;line-height:1.1}
      .front .stock{font-size:10pt;font-weight:600}
      .front .lines{position:absolute;left:12mm;top:15.5mm;width:36mm}
      .front svg{position:absolute;right:2.5mm;top:17mm;width:40mm;height:38.1mm}
      .front p,.back p{margin-top:.9mm}
      .back h2{font-size:8.6pt}
      .stop{border:2px solid #222;padding:.6mm 1.2mm;font-weight:700}
      .foot{position:absolute;left:3.5mm;bottom:2mm;font-size:5.6pt}
      .front .foot{left:12mm}
      @page{size:PAPER;margin:0}
      @media print{
        body{background:none}
        .how{display:none}
        .sheet{margin:0}
      }
      @media screen and (max-width:820px){
        .sheet{width:auto;height:auto;padding:10px;font-size:12px}
        .marks,.sheet.backs .tag+.tag,.sheet.fronts .tag+.tag{display:none}
        .tag{position:relative;left:auto;top:auto;width:auto;height:auto;min-height:250px}
      }
      """;

  private final CardResponse card;
  private final Said said;
  private final Paper paper;
  private final Page.Writer html;
  private final StringBuilder places = new StringBuilder();

  private TagSheet(Said said, Paper paper) {
    this.said = said;
    card = said.card();
    this.paper = paper;
    for (int row = 0; row < ROWS; row++) {
      for (int column = 0; column < COLUMNS; column++)
        places.append(
            ".r%dc%d{left:%smm;top:%smm}%n"
                .replace("%n", "\n")
                .formatted(row, column, mm(left(column)), mm(top(row))));
    }
    String style =
        STYLE
            .replace("WIDTH", mm(paper.widthMm))
            .replace("HEIGHT", mm(paper.heightMm - 0.2)) // a hair less, or a sheet spills over
            .replace("TAGW", mm(TAG_WIDTH_MM))
            .replace("TAGH", mm(TAG_HEIGHT_MM))
            .replace("PAPER", paper.css)
            .replace("@page", places + "@page");
    html =
        new Page.Writer(
            said.words(), said.say("tags.page", "title", card.title(), "crop", said.crop()), style);
  }

  static Page of(Said said, Paper paper, int copies) {
    TagSheet sheets = new TagSheet(said, paper);
    sheets.write(copies);
    return sheets.html.finish();
  }

  private double left(int column) {
    return (paper.widthMm - COLUMNS * TAG_WIDTH_MM) / 2 + column * TAG_WIDTH_MM;
  }

  private double top(int row) {
    return (paper.heightMm - ROWS * TAG_HEIGHT_MM) / 2 + row * TAG_HEIGHT_MM;
  }

  private void write(int copies) {
    html.open("main");
    how(copies);
    for (int first = 0; first < copies; first += PER_SHEET) {
      int here = Math.min(PER_SHEET, copies - first);
      sheet(here, true);
      sheet(here, false);
    }
    html.close();
  }

  private void how(int copies) {
    html.open("div", "class", "how");
    html.put("h1", said.say("tags.heading", "title", card.title()));
    html.open("ol");
    html.put("li", said.say("tags.how.print", "paper", paper.name().toLowerCase(Locale.ROOT)));
    html.put("li", said.say("tags.how.cut"));
    html.put("li", said.say("tags.how.tie"));
    html.close();
    html.put("p", said.say("tags.count", "count", copies, "sheet", PER_SHEET));
    html.close();
  }

  private void sheet(int tags, boolean front) {
    html.open("section", "class", front ? "sheet fronts" : "sheet backs");
    html.picture(marks(tags, front));
    for (int k = 0; k < tags; k++) {
      String place = "r" + k / COLUMNS + "c" + column(k, front);
      html.open("article", "class", "tag " + (front ? "front " : "back ") + place);
      if (front) front();
      else back();
      html.close();
    }
    html.close();
  }

  /** The backs' columns run the other way. */
  private static int column(int k, boolean front) {
    int column = k % COLUMNS;
    return front ? column : COLUMNS - 1 - column;
  }

  /** Cut marks beside the tags and a ring on each where the hole goes; drawn in millimetres. */
  private String marks(int tags, boolean front) {
    StringBuilder path = new StringBuilder();
    int rows = (tags + COLUMNS - 1) / COLUMNS;
    double right = left(COLUMNS);
    double bottom = top(rows);
    for (int column = 0; column <= COLUMNS; column++) {
      path.append("M").append(mm(left(column))).append(",").append(mm(top(0) - 1 - MARK_MM));
      path.append("v").append(mm(MARK_MM));
      path.append("M").append(mm(left(column))).append(",").append(mm(bottom + 1));
      path.append("v").append(mm(MARK_MM));
    }
    for (int row = 0; row <= rows; row++) {
      path.append("M").append(mm(left(0) - 1 - MARK_MM)).append(",").append(mm(top(row)));
      path.append("h").append(mm(MARK_MM));
      path.append("M").append(mm(right + 1)).append(",").append(mm(top(row)));
      path.append("h").append(mm(MARK_MM));
    }
    StringBuilder rings = new StringBuilder();
    for (int k = 0; k < tags; k++) {
      double edge = left(column(k, front)) + (front ? HOLE_MM : TAG_WIDTH_MM - HOLE_MM);
      rings
          .append("<circle cx=\"")
          .append(mm(edge))
          .append("\" cy=\"")
          .append(mm(top(k / COLUMNS) + TAG_HEIGHT_MM / 2))
          .append("\" r=\"2.5\"/>");
    }
    return "<svg class=\"marks\" aria-hidden=\"true\" viewBox=\"0 0 "
        + mm(paper.widthMm)
        + " "
        + mm(paper.heightMm)
        + "\" fill=\"none\" stroke=\"#222222\" stroke-width=\"0.2\"><path d=\""
        + path
        + "\"/>"
        + rings
        + "</svg>";
  }

  private void front() {
    CardResponse.Tree tree = card.expectations();
    html.put("h2", Said.shortened(card.variety().name(), 34));
    html.put(
        "p",
        said.say("tags.on", "stock", Said.shortened(card.stock().name(), 34), "crop", said.crop()),
        "class",
        "stock");
    html.open("div", "class", "lines");
    if (said.warns()) html.put("p", said.warning(), "class", "stop");
    if (said.fails()) html.put("p", said.say("tags.if-held"));
    if (!tree.sizeKnown()) html.put("p", said.say("tags.size-unknown"));
    html.put("p", said.say("tags.height", "range", said.range(tree.heightM())));
    html.put("p", said.say("tags.spread", "range", said.range(tree.spreadM())));
    html.put("p", said.say("tags.first-crop", "year", said.year(tree.firstCropYear())));
    html.put("p", said.say("tags.full-crop", "year", said.year(tree.fullCropYear())));
    html.put(
        "p",
        said.say(
            "tags.ripens",
            "known",
            card.fruit().harvest() != null,
            "season",
            Said.shortened(said.harvest(), 60)));
    html.close();
    Drawing drawing =
        new Drawing(
            said.words(),
            168,
            160,
            said.say("card.size.of", "title", card.title()),
            TreeFigure.told(said.tree(), said.units(), said.words()));
    TreeFigure.drawPlain(drawing, said.tree(), 0, 0, 168, 160);
    // one picture stands on many tags: without ids none is doubled
    html.picture(
        drawing
            .finish()
            .replaceFirst(
                " aria-labelledby=\"title desc\"",
                " aria-label=\"" + said.say("tree.beside") + "\"")
            .replaceAll("<(title|desc) id=\"\\w+\">[^<]*</\\1>", ""));
    html.put("p", said.say("tags.planted"), "class", "foot");
  }

  private void back() {
    if (said.warns()) html.put("p", Said.shortened(card.union().text(), 260), "class", "stop");
    else html.put("h2", Said.shortened(card.title(), 60));
    if (!said.fails()) {
      html.put("p", said.say("tags.room", "room", said.spacing()));
      html.put("p", said.say("tags.support", "support", said.support()));
    }
    html.put("p", partners());
    if (!said.fails())
      for (CardResponse.Care care : card.care())
        if (!care.topic().equals("support")) html.put("p", Said.shortened(care.text(), SENTENCE));
    card.cautions().stream()
        .limit(1)
        .forEach(caution -> html.put("p", Said.shortened(caution.text(), SENTENCE)));
    html.put("p", said.say("tags.origin", "origin", said.origin()), "class", "foot");
  }

  private String partners() {
    if (!said.namesPartners()) return said.say("tags.pollen.needless");
    List<String> sure =
        card.pollen().partners().stream()
            .filter(p -> !p.pollen().equals("unknown"))
            .limit(4)
            .map(p -> p.variety().name())
            .toList();
    List<String> names =
        sure.isEmpty()
            ? card.pollen().partners().stream().limit(3).map(p -> p.variety().name()).toList()
            : sure;
    return said.say(
        "tags.pollen",
        "need",
        card.pollen().need(),
        "found",
        names.isEmpty() ? "none" : sure.isEmpty() ? "perhaps" : "partners",
        "names",
        String.join(", ", names));
  }

  private static String mm(double mm) {
    return String.format(Locale.ROOT, "%.2f", mm).replaceAll("\\.?0+$", "");
  }
}
