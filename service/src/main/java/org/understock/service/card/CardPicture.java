package org.understock.service.card;

import java.util.ArrayList;
import java.util.List;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.service.drawing.TreeFigure;

/** The card as one picture: names, warning, size, figures, years. */
final class CardPicture {
  private static final double WIDTH = 800;
  private static final double MARGIN = 20;
  private static final double FACTS = 480;
  private static final int FACT_CHARACTERS = 35;
  private static final int LINE_CHARACTERS = 112;

  private CardPicture() {}

  static String of(Said said) {
    CardResponse card = said.card();
    List<String> warning =
        said.warns() ? wrapped(card.union().text(), LINE_CHARACTERS - 8) : List.of();
    double banner = warning.isEmpty() ? 0 : 36 + 17 * warning.size();
    List<String[]> facts = facts(card, said);
    double body =
        Math.max(
            300, 24 + facts.stream().mapToInt(f -> f.length - 1).sum() * 16 + facts.size() * 5);
    double top = 84 + banner + (banner > 0 ? 10 : 0);
    double height = top + body + 24 + TimeLine.height() + 54;
    Drawing drawing = new Drawing(said.words(), WIDTH, height, said.heading(), told(card, said));
    drawing.text(MARGIN, 26, said.crop(), "font-size", 14, "fill", Palette.INK);
    drawing.text(
        MARGIN,
        58,
        Drawing.shortened(card.title(), 46),
        "font-size",
        30,
        "font-weight",
        "bold",
        "fill",
        Palette.INK);
    if (!warning.isEmpty()) {
      drawing.rect(
          MARGIN,
          72,
          WIDTH - 2 * MARGIN,
          banner - 6,
          "fill",
          "none",
          "stroke",
          Palette.INK,
          "stroke-width",
          3);
      drawing.text(
          MARGIN + 12,
          94,
          said.warning(),
          "font-size",
          17,
          "font-weight",
          "bold",
          "fill",
          Palette.INK);
      for (int k = 0; k < warning.size(); k++)
        drawing.text(MARGIN + 12, 113 + 17 * k, warning.get(k), "fill", Palette.INK);
    }
    heading(drawing, MARGIN, top, FACTS - 20 - MARGIN, said.sizeHeading());
    TreeFigure.draw(
        drawing,
        said.tree(),
        said.units(),
        said.words(),
        MARGIN,
        top + 8,
        FACTS - 20 - MARGIN,
        Math.min(body, 330) - 8);
    heading(drawing, FACTS, top, WIDTH - MARGIN - FACTS, said.say("card.figures"));
    double at = top + 22;
    for (String[] fact : facts) {
      drawing.text(FACTS, at, fact[0], "font-weight", "bold", "font-size", 12, "fill", Palette.INK);
      for (int k = 1; k < fact.length; k++) {
        drawing.text(FACTS + 70, at, fact[k], "font-size", 12, "fill", Palette.INK);
        at += 16;
      }
      at += 5 + (fact.length == 1 ? 16 : 0);
    }
    double time = top + body + 24;
    heading(drawing, MARGIN, time, WIDTH - 2 * MARGIN, said.ifItHeld(said.say("card.time")));
    TimeLine.draw(drawing, card.expectations(), said, MARGIN, time + 6, WIDTH - 2 * MARGIN);
    drawing.text(
        MARGIN,
        height - 10,
        said.say("card.origin.picture", "origin", said.origin()),
        "font-size",
        11,
        "fill",
        Palette.GREY);
    return drawing.finish();
  }

  private static void heading(Drawing drawing, double x, double y, double width, String text) {
    drawing.text(x, y, text, "font-size", 14, "font-weight", "bold", "fill", Palette.INK);
    drawing.line(x, y + 5, x + width, y + 5, "stroke", Palette.INK);
  }

  /** Each fact: its name, then its lines. */
  private static List<String[]> facts(CardResponse card, Said said) {
    List<String[]> facts = new ArrayList<>();
    fact(facts, said, "room", said.spacing());
    fact(facts, said, "crop", said.yield());
    fact(facts, said, "support", said.support());
    fact(facts, said, "bloom", said.bloom());
    fact(facts, said, "ripens", said.harvest());
    fact(facts, said, "chill", said.chill());
    fact(facts, said, "winter", said.cold());
    fact(facts, said, "pollen", said.partners());
    fact(facts, said, "bears", said.ratings(card.bears(), "stock", 3));
    fact(facts, said, "suffers", said.ratings(card.suffersFrom(), "stock", 3));
    return facts;
  }

  private static void fact(List<String[]> facts, Said said, String name, String text) {
    List<String> lines = new ArrayList<>(List.of(said.say("card.fact." + name)));
    lines.addAll(wrapped(text, FACT_CHARACTERS));
    facts.add(lines.toArray(String[]::new));
  }

  private static String told(CardResponse card, Said said) {
    return (said.warns() ? said.warning() + ". " + card.union().text() + " " : "")
        + TreeFigure.told(said.tree(), said.units(), said.words())
        + " "
        + TimeLine.told(card.expectations(), said)
        + " "
        + said.say(
            "card.told",
            "room",
            said.spacing(),
            "support",
            said.support(),
            "chill",
            said.chill(),
            "ripens",
            said.harvest());
  }

  /** Broken at spaces into lines of so many characters at most, where the words allow. */
  static List<String> wrapped(String text, int most) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ")) {
      if (line.length() > 0 && line.length() + 1 + word.length() > most) {
        lines.add(line.toString());
        line.setLength(0);
      }
      if (line.length() > 0) line.append(' ');
      line.append(word);
    }
    lines.add(line.toString());
    return lines;
  }
}
