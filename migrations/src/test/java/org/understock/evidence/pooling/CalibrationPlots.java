package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.understock.evidence.pooling.CalibrationTest.LeftOut;

/**
 * The pictures of the calibration on the page "What the intervals mean". They are drawn from the
 * test's own figures, and the committed ones must be the same: {@code -Dplots.write=true} draws
 * them anew. Colours are those of Okabe and Ito; dash and label tell the lines apart without them.
 */
final class CalibrationPlots {
  private static final Path FOLDER = Path.of("../service/src/main/resources/static/docs");
  private static final Pattern NUMBER = Pattern.compile("-?\\d+(\\.\\d+)?");

  /** A coordinate is written to a tenth; another machine may round its last digit otherwise. */
  private static final double SAME = 0.25;

  private static final int LEFT = 64;
  private static final int TOP = 16;
  private static final int SIDE = 360;
  private static final String[] COLOURS = {"#0072B2", "#D55E00", "#009E73"};
  private static final String[] DASHES = {"none", "7 4", "2 4"};

  private CalibrationPlots() {}

  /** Writes the picture, if asked to, else holds it against the committed one. */
  static void check(String name, String svg) {
    Path file = FOLDER.resolve(name);
    try {
      if (Boolean.getBoolean("plots.write")) {
        Files.createDirectories(FOLDER);
        Files.writeString(file, svg);
      }
      String committed = Files.readString(file);
      assertThat(NUMBER.matcher(svg).replaceAll("#"))
          .as("%s; if the evidence changed on purpose, run with -Dplots.write=true", name)
          .isEqualTo(NUMBER.matcher(committed).replaceAll("#"));
      Matcher now = NUMBER.matcher(svg);
      Matcher then = NUMBER.matcher(committed);
      while (now.find() && then.find())
        assertThat(Double.parseDouble(now.group()))
            .as("%s; if the evidence changed on purpose, run with -Dplots.write=true", name)
            .isCloseTo(Double.parseDouble(then.group()), within(SAME));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The page must tell the figures that the test found. */
  static void told(int means, double heldPercent) {
    try {
      assertThat(Files.readString(FOLDER.resolve("intervals.html")))
          .contains(
              String.format(
                  Locale.ROOT,
                  "<td class=\"n\">%d</td><td class=\"n\">%.1f %%",
                  means,
                  heldPercent));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** For intervals of every width: how many they should hold, and how many they held. */
  static String held(Map<String, List<LeftOut>> byTrait) {
    StringBuilder svg = open("Intervals of every width, and the share of left-out means they held");
    frame(svg, "should hold, %", "held, %");
    for (int percent = 0; percent <= 100; percent += 20) {
      double at = percent / 100.0;
      tick(svg, at, at, Integer.toString(percent), Integer.toString(percent));
    }
    svg.append(line(x(0), y(0), x(1), y(1), "#5F6368", "1 3", 1));
    int k = 0;
    for (Map.Entry<String, List<LeftOut>> trait : byTrait.entrySet()) {
      List<String> points = new ArrayList<>();
      for (int percent = 5; percent <= 95; percent += 5) {
        double z = NormalDistribution.of(0, 1).inverseCumulativeProbability(0.5 + percent / 200.0);
        points.add(
            number(x(percent / 100.0))
                + ","
                + number(y(CalibrationTest.held(trait.getValue(), z) / 100)));
      }
      svg.append(
          "<polyline points=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"2\" stroke-dasharray=\"%s\"/>%n"
              .formatted(String.join(" ", points), COLOURS[k], DASHES[k]));
      legend(svg, k, trait);
      k++;
    }
    return svg.append("</svg>\n").toString();
  }

  /** Every left-out mean: what was predicted and what was found, both against the others in it. */
  static String found(Map<String, List<LeftOut>> byTrait) {
    double[] ratios = {0.125, 0.25, 0.5, 1, 2, 4, 8};
    String[] labels = {"⅛", "¼", "½", "1", "2", "4", "8"};
    StringBuilder svg = open("What was predicted of each left-out mean, and what was found");
    frame(svg, "predicted, times the others' average", "found, times the others' average");
    for (int r = 0; r < ratios.length; r++) {
      double at = place(Math.log(ratios[r]));
      tick(svg, at, at, labels[r], labels[r]);
    }
    svg.append(line(x(0), y(0), x(1), y(1), "#5F6368", "1 3", 1));
    int k = 0;
    for (Map.Entry<String, List<LeftOut>> trait : byTrait.entrySet()) {
      for (LeftOut mean : trait.getValue()) {
        svg.append(
            mark(
                k,
                x(clamped(place(mean.predicted()))),
                y(clamped(place(mean.found()))),
                mean.within(Z80)));
      }
      double top = TOP + SIDE + 56 + 20 * k;
      svg.append(mark(k, LEFT + 4, top, true)).append(mark(k, LEFT + 18, top, false));
      svg.append(text(LEFT + 30, top + 4, trait.getKey().replace('-', ' ') + " (filled: outside)"));
      k++;
    }
    return svg.append("</svg>\n").toString();
  }

  private static String mark(int k, double x, double y, boolean inside) {
    String fill = inside ? "none" : COLOURS[k];
    return k == 0
        ? "<circle cx=\"%s\" cy=\"%s\" r=\"2.5\" fill=\"%s\" stroke=\"%s\"/>%n"
            .formatted(number(x), number(y), fill, COLOURS[k])
        : "<path d=\"M%s %sl3 5h-6z\" fill=\"%s\" stroke=\"%s\"/>%n"
            .formatted(number(x), number(y - 3), fill, COLOURS[k]);
  }

  private static String text(double x, double y, String words) {
    return "<text x=\"%s\" y=\"%s\">%s</text>%n".formatted(number(x), number(y), words);
  }

  /** Half-width, in standard deviations, of an interval that should hold 80 %. */
  private static final double Z80 = 1.2815515655446004;

  private static double place(double log) {
    return 0.5 + log / Math.log(8) / 2;
  }

  private static double clamped(double at) {
    return Math.max(0, Math.min(1, at));
  }

  private static double x(double share) {
    return LEFT + share * SIDE;
  }

  private static double y(double share) {
    return TOP + (1 - share) * SIDE;
  }

  private static StringBuilder open(String title) {
    return new StringBuilder(
        """
        <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 440 480" role="img" font-family="sans-serif" font-size="13" fill="#222222">
        <title>%s</title>
        <rect width="440" height="480" fill="#FFFFFF"/>
        """
            .formatted(title));
  }

  private static void frame(StringBuilder svg, String across, String up) {
    svg.append(
        "<rect x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" fill=\"none\" stroke=\"#222222\"/>%n"
            .formatted(LEFT, TOP, SIDE, SIDE));
    svg.append(
        "<text x=\"%s\" y=\"%d\" text-anchor=\"middle\">%s</text>%n"
            .formatted(number(x(0.5)), TOP + SIDE + 36, across));
    svg.append(
        "<text transform=\"translate(16 %s) rotate(-90)\" text-anchor=\"middle\">%s</text>%n"
            .formatted(number(y(0.5)), up));
  }

  private static void tick(StringBuilder svg, double atX, double atY, String below, String beside) {
    svg.append(line(x(atX), y(0), x(atX), y(1), "#D0D0D0", "none", 0.5));
    svg.append(line(x(0), y(atY), x(1), y(atY), "#D0D0D0", "none", 0.5));
    svg.append(
        "<text x=\"%s\" y=\"%d\" text-anchor=\"middle\">%s</text>%n"
            .formatted(number(x(atX)), TOP + SIDE + 18, below));
    svg.append(
        "<text x=\"%d\" y=\"%s\" text-anchor=\"end\">%s</text>%n"
            .formatted(LEFT - 7, number(y(atY) + 4), beside));
  }

  private static void legend(StringBuilder svg, int k, Map.Entry<String, List<LeftOut>> trait) {
    double top = TOP + SIDE + 60 + 20 * k;
    svg.append(line(LEFT, top - 4, LEFT + 30, top - 4, COLOURS[k], DASHES[k], 2));
    svg.append(
        "<text x=\"%d\" y=\"%s\">%s, %d means</text>%n"
            .formatted(
                LEFT + 38, number(top), trait.getKey().replace('-', ' '), trait.getValue().size()));
  }

  private static String line(
      double x1, double y1, double x2, double y2, String colour, String dash, double width) {
    return "<line x1=\"%s\" y1=\"%s\" x2=\"%s\" y2=\"%s\" stroke=\"%s\" stroke-dasharray=\"%s\" stroke-width=\"%s\"/>%n"
        .formatted(number(x1), number(y1), number(x2), number(y2), colour, dash, number(width));
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }
}
