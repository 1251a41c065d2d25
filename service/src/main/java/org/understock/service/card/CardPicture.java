package org.understock.service.card;

import java.util.ArrayList;
import java.util.List;
import org.understock.advice.Units;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.service.drawing.TreeFigure;

/** The card as one picture: names, warning, size, figures, years. */
final class CardPicture {
  private static final double WIDTH = 800;
  private static final double MARGIN = 20;
  private static final double FACTS = 480;
  private static final int FACT_CHARACTERS = 36;
  private static final int LINE_CHARACTERS = 112;

  private CardPicture() {}

  static String of(CardResponse card, Units units) {
    Said said = new Said(card, units);
    List<String> warning =
        said.warns() ? wrapped(card.union().text(), LINE_CHARACTERS - 8) : List.of();
    double banner = warning.isEmpty() ? 0 : 36 + 17 * warning.size();
    List<String[]> facts = facts(card, said);
    double body =
        Math.max(
            300, 24 + facts.stream().mapToInt(f -> f.length - 1).sum() * 16 + facts.size() * 5);
    double top = 84 + banner + (banner > 0 ? 10 : 0);
    double height = top + body + 24 + TimeLine.height() + 54;
    Drawing drawing =
        new Drawing(WIDTH, height, card.title() + ", " + said.crop(), told(card, said));
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
        drawing, said.tree(), units, MARGIN, top + 8, FACTS - 20 - MARGIN, Math.min(body, 330) - 8);
    heading(drawing, FACTS, top, WIDTH - MARGIN - FACTS, "In figures");
    double at = top + 22;
    for (String[] fact : facts) {
      drawing.text(FACTS, at, fact[0], "font-weight", "bold", "font-size", 12, "fill", Palette.INK);
      for (int k = 1; k < fact.length; k++) {
        drawing.text(FACTS + 64, at, fact[k], "font-size", 12, "fill", Palette.INK);
        at += 16;
      }
      at += 5 + (fact.length == 1 ? 16 : 0);
    }
    double time = top + body + 24;
    heading(drawing, MARGIN, time, WIDTH - 2 * MARGIN, said.ifItHeld("From planting on"));
    TimeLine.draw(drawing, card.expectations(), said, MARGIN, time + 6, WIDTH - 2 * MARGIN);
    drawing.text(
        MARGIN,
        height - 10,
        said.origin() + ". A starting point for a conversation, not a recommendation.",
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
    fact(facts, "Room", said.spacing());
    fact(facts, "Crop", said.yield() + ", full-grown");
    fact(facts, "Support", said.support());
    fact(facts, "Bloom", said.bloom());
    fact(facts, "Ripens", said.harvest());
    fact(facts, "Chill", said.chill());
    fact(facts, "Winter", said.cold());
    fact(
        facts,
        "Pollen",
        !said.namesPartners()
            ? "needs no partner"
            : card.pollen().partners().isEmpty()
                ? "no partner on record"
                : (card.pollen().partnerWanted()
                        ? (card.pollen().partners().get(0).pollen().equals("unknown")
                            ? "needs a partner, perhaps "
                            : "needs a partner, such as ")
                        : "helped by ")
                    + String.join(
                        ", ",
                        card.pollen().partners().stream()
                            .limit(3)
                            .map(p -> p.variety().name())
                            .toList()));
    fact(facts, "Bears", Said.ratings(card.bears(), "stock", 3));
    fact(facts, "Suffers", Said.ratings(card.suffersFrom(), "stock", 3));
    return facts;
  }

  private static void fact(List<String[]> facts, String name, String text) {
    List<String> lines = new ArrayList<>(List.of(name));
    lines.addAll(wrapped(text, FACT_CHARACTERS));
    facts.add(lines.toArray(String[]::new));
  }

  private static String told(CardResponse card, Said said) {
    return (said.warns() ? said.warning() + ". " + card.union().text() + " " : "")
        + TreeFigure.told(said.tree(), said.units())
        + " "
        + TimeLine.told(card.expectations(), said)
        + " Room: "
        + said.spacing()
        + ". Support: "
        + said.support()
        + ". Chill need: "
        + said.chill()
        + ". Ripens: "
        + said.harvest()
        + ".";
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
