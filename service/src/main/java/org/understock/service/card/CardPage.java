package org.understock.service.card;

import java.util.List;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.TreeFigure;
import org.understock.wording.Language;

/**
 * The card as a page that prints on one sheet. What there is no room for is counted, and is in the
 * JSON.
 */
final class CardPage {
  private static final int RATINGS = 7;
  private static final int PARTNERS = 5;
  private static final int CAUTIONS = 4;
  private static final int SOURCES = 7;
  private static final int CITATION = 120;

  private static final String STYLE =
      """
      *{box-sizing:border-box}
      html{-webkit-text-size-adjust:100%}
      body{margin:0;background:#e9e9e4;color:#222;font:15px/1.4 system-ui,'Segoe UI','DejaVu Sans',Arial,sans-serif}
      main{max-width:820px;margin:0 auto;padding:20px 24px;background:#fff}
      h1,h2,p,ul,dl,dd,figure,table{margin:0}
      h1{font-size:2em;line-height:1.15}
      h2{font-size:1em;margin-bottom:.35em;padding-bottom:.15em;border-bottom:1.5px solid #222}
      header p{color:#444}
      .warn{margin-top:.8em;padding:.6em .8em;border:3px solid #222;background:repeating-linear-gradient(135deg,#fff 0 14px,#f1efe6 14px 28px)}
      .warn h2{border:0;font-size:1.25em;margin:0;padding:0}
      .grid{display:grid;grid-template-columns:repeat(12,minmax(0,1fr));gap:1em 1.4em;margin-top:1em}
      section{grid-column:span 12}
      .size{grid-column:1/8;grid-row:1}.facts{grid-column:8/13;grid-row:1}
      .time{grid-column:1/8;grid-row:2}.pollen{grid-column:8/13;grid-row:2}
      .bears{grid-column:span 7}.care{grid-column:span 5}
      .cautions ul{columns:2;column-gap:1.8em}
      svg{display:block;width:100%;height:auto}
      figcaption,.small{font-size:.84em;color:#444}
      dl{display:grid;grid-template-columns:max-content 1fr;gap:.15em .7em}
      dt{font-weight:600}
      ul{padding-left:1.1em}
      li{margin-bottom:.15em}
      table{width:100%;border-collapse:collapse;font-size:.93em}
      th,td{text-align:left;vertical-align:top;padding:.18em .5em .18em 0;border-bottom:1px solid #bbb}
      thead th{border-bottom:1px solid #222}
      footer{margin-top:1em;padding-top:.4em;border-top:1.5px solid #222;font-size:.8em;color:#333}
      footer h2{border:0;display:inline;font-size:1em;margin:0}
      footer ol{margin:0;padding-left:1.6em;columns:2;column-gap:1.6em}
      footer p{margin-top:.3em}
      @media (max-width:640px){
        main{padding:14px}
        .grid{display:block}
        section{margin-top:1.1em}
        footer ol,.cautions ul{columns:1}
        h1{font-size:1.6em}
      }
      @page{size:%s;margin:9mm}
      @media print{
        body{background:none;font-size:%font;line-height:1.26}
        main{max-width:none;padding:0}
        .grid{display:grid;gap:1.8mm 4mm;margin-top:2mm}
        section{margin:0}
        h1{font-size:20pt}
        .size svg{width:auto;max-width:100%;height:%figure}
        footer{margin-top:2mm;font-size:6.6pt;line-height:1.2}
        footer ol{columns:2}
        section,tr,li{break-inside:avoid}
      }
      """;

  private final CardResponse card;
  private final Said said;
  private final Page.Writer html;

  private CardPage(Said said, Paper paper) {
    this.said = said;
    card = said.card();
    html = new Page.Writer(said.words(), said.heading(), style(paper, said.words().language()));
  }

  /**
   * Letter is shorter than A4 by the height of three lines, and other languages than English say
   * the same at greater length: drawing and type are smaller there.
   */
  private static String style(Paper paper, Language language) {
    boolean tall = paper == Paper.A4;
    boolean terse = language == Language.ENGLISH;
    return STYLE
        .replace("%s", paper.css)
        .replace("%font", tall ? (terse ? "8.1pt" : "7.6pt") : (terse ? "7.7pt" : "7.2pt"))
        .replace("%figure", tall ? (terse ? "62mm" : "54mm") : (terse ? "54mm" : "46mm"));
  }

  static Page of(Said said, Paper paper) {
    CardPage page = new CardPage(said, paper);
    page.write();
    return page.html.finish();
  }

  private void write() {
    html.open("main");
    head();
    html.open("div", "class", "grid");
    size();
    facts();
    time();
    pollen();
    bears();
    if (!said.fails()) care(); // a tree that is not to be planted needs none
    cautions();
    html.close();
    foot();
    html.close();
  }

  private void head() {
    html.open("header");
    html.put("p", said.crop());
    html.put("h1", card.title());
    if (said.warns()) {
      html.open("div", "class", "warn", "role", "note");
      html.put("h2", said.warning());
      html.put("p", card.union().text());
      html.close();
    } else {
      html.put("p", said.say("card.intro", "union", card.union().text()));
    }
    html.close();
  }

  private Page.Writer section(String style, String heading) {
    return html.open("section", "class", style).put("h2", heading);
  }

  private void size() {
    section("size", said.sizeHeading());
    html.open("figure");
    Drawing drawing =
        new Drawing(
            said.words(),
            "size-",
            440,
            300,
            said.say("card.size.of", "title", card.title()),
            TreeFigure.told(said.tree(), said.units(), said.words()));
    TreeFigure.draw(drawing, said.tree(), said.units(), said.words(), 0, 4, 440, 292);
    html.picture(drawing.finish());
    html.put("figcaption", said.sizeCaption());
    html.close().close();
  }

  private void facts() {
    CardResponse.Tree tree = card.expectations();
    section("facts", said.ifItHeld(said.say("card.figures")));
    html.open("dl");
    fact("height", said.lengths(tree.heightM()));
    fact("spread", said.lengths(tree.spreadM()));
    fact("room", said.spacing());
    fact("crop", said.yield());
    fact("support", said.support());
    fact("bloom", said.bloom());
    fact("ripens", said.harvest());
    fact("chill", said.chill());
    fact("winter", said.cold());
    html.close();
    List<String> doubts = said.doubts();
    if (!doubts.isEmpty()) html.put("p", String.join(" ", doubts), "class", "small");
    html.close();
  }

  private void fact(String name, String text) {
    html.put("dt", said.say("card.fact." + name)).put("dd", text);
  }

  private void time() {
    section("time", said.ifItHeld(said.say("card.time")));
    Drawing drawing =
        new Drawing(
            said.words(),
            "time-",
            440,
            TimeLine.height(),
            said.say("card.years.of", "title", card.title()),
            TimeLine.told(card.expectations(), said));
    TimeLine.draw(drawing, card.expectations(), said, 0, 0, 440);
    html.picture(drawing.finish()).close();
  }

  private void pollen() {
    section("pollen", said.say("card.pollen"));
    html.put("p", card.pollen().text());
    if (!said.namesPartners()) {
      html.put("p", said.say("card.partners.needless"));
    } else if (card.pollen().partners().isEmpty()) {
      html.put("p", said.say("card.partners.none"));
    } else {
      html.open("table").open("thead").open("tr");
      for (String head : List.of("card.partner", "card.partner.its-pollen", "card.partner.blooms"))
        html.put("th", said.say(head), "scope", "col");
      html.close().close().open("tbody");
      for (CardResponse.Partner partner :
          card.pollen().partners().stream().limit(PARTNERS).toList()) {
        html.open("tr")
            .put("th", partner.variety().name(), "scope", "row")
            .put("td", said.pollen(partner))
            .put("td", said.overlap(partner))
            .close();
      }
      html.close().close();
    }
    html.close();
  }

  private void bears() {
    section("bears", said.say("card.ratings"));
    html.open("table").open("thead").open("tr").put("td", "");
    html.put("th", said.say("card.stock", "stock", card.stock().name()), "scope", "col");
    html.put("th", said.say("card.variety", "variety", card.variety().name()), "scope", "col");
    html.close().close().open("tbody");
    row("card.bears", card.bears());
    if (!card.middling().isEmpty()) row("card.middling", card.middling());
    row("card.suffers", card.suffersFrom());
    if (!said.roots().isEmpty())
      html.open("tr")
          .put("th", said.say("card.root"), "scope", "row")
          .put("td", said.roots(), "colspan", "2")
          .close();
    html.close().close();
    if (!card.notRated().isEmpty())
      html.put(
          "p",
          said.say(
              "card.unrated",
              "stock",
              card.stock().name(),
              "topics",
              said.some(card.notRated(), 9)),
          "class",
          "small");
    html.close();
  }

  private void row(String name, List<CardResponse.Rating> ratings) {
    html.open("tr")
        .put("th", said.say(name), "scope", "row")
        .put("td", said.ratings(ratings, "stock", RATINGS))
        .put("td", said.ratings(ratings, "variety", RATINGS))
        .close();
  }

  private void care() {
    section("care", said.say("card.care"));
    html.open("ul");
    for (CardResponse.Care care : card.care()) html.put("li", care.text());
    html.close().close();
  }

  private void cautions() {
    section("cautions", said.say("card.cautions"));
    html.open("ul");
    for (CardResponse.Caution caution : card.cautions().stream().limit(CAUTIONS).toList())
      html.put("li", caution.text());
    for (CardResponse.Notice notice : card.notices())
      if (List.of("plant-health-rules", "ladders", "buried-services").contains(notice.code()))
        html.put("li", notice.text());
    html.close().close();
  }

  private void foot() {
    html.open("footer");
    int all = card.sources().size();
    html.put("h2", said.say("card.sources", "some", all > SOURCES, "count", all));
    html.open("ol");
    for (CardResponse.CitedSource source : card.sources().stream().limit(SOURCES).toList())
      html.put("li", Said.shortened(source.citation(), CITATION));
    html.close();
    card.notices().stream()
        .filter(notice -> notice.code().equals("starting-point"))
        .forEach(notice -> html.put("p", notice.text()));
    html.put("p", said.glossary());
    html.put(
        "p",
        said.say(
            "card.origin.all",
            "origin",
            said.origin(),
            "link",
            "/v1/pairings/"
                + card.stock().id()
                + "/"
                + card.variety().id()
                + "?format=json&revision="
                + card.revision()));
    html.close();
  }
}
