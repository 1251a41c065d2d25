package org.understock.service.climate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.understock.climate.ChillMeasure;
import org.understock.climate.ClimateOutlook;
import org.understock.climate.SafeChill;
import org.understock.climate.Winter;
import org.understock.climate.Winters;
import org.understock.plant.Variety;
import org.understock.service.drawing.Drawing;
import org.understock.service.drawing.Palette;
import org.understock.wording.Words;

/**
 * How chill adds up over each winter, against what varieties need. Lines differ by their dashes and
 * weights as well as by colour, and every line is named at its end, so that it can be read in black
 * and white.
 */
final class ChillChart {
  private static final double WIDTH = 970;
  private static final double HEIGHT = 560;
  private static final double LEFT = 66;
  private static final double RIGHT = 640;
  private static final double TOP = 78;
  private static final double BOTTOM = 478;
  private static final double LABEL_X = 664;
  private static final double LABEL_STEP = 17;
  private static final int MOST_NAMED_WINTERS = 6;
  private static final int MOST_NEEDS = 10;
  private static final int LABEL_LENGTH = 45;
  private static final int LEAST_FOR_BAND = 3;
  private static final String[] DASHES = {"9 4", "2 3", "12 3 2 3", "5 5", "1 4"};

  private final Words words;
  private final Winters winters;
  private final ChillMeasure measure;
  private final List<Winter> drawn;
  private final List<double[]> sums = new ArrayList<>();
  private final List<ClimateOutlook.VarietyOutlook> needing;
  private final List<Label> labels = new ArrayList<>();
  private final int days;
  private final double least;
  private final double most;

  /** A name at the right edge, at the height of what it names, which ends at {@code x}. */
  private record Label(double x, double y, String text, String colour) {}

  private ChillChart(ClimateOutlook outlook, ChillMeasure measure, Words words) {
    this.words = words;
    this.winters = outlook.winters();
    this.measure = measure;
    drawn = winters.all().stream().filter(w -> w.chill().isPresent()).toList();
    for (Winter winter : drawn) sums.add(winters.accumulation(winter, measure));
    needing =
        outlook.varieties().stream().filter(v -> need(v).isPresent()).limit(MOST_NEEDS).toList();
    days = sums.stream().mapToInt(s -> s.length).max().orElse(1);
    double high =
        sums.stream().flatMapToDouble(Arrays::stream).filter(x -> !Double.isNaN(x)).max().orElse(1);
    for (ClimateOutlook.VarietyOutlook v : needing)
      high = Math.max(high, need(v).orElseThrow().need().likely());
    most = 1.06 * Math.max(high, 1);
    least =
        Math.min(
            0,
            sums.stream()
                .flatMapToDouble(Arrays::stream)
                .filter(x -> !Double.isNaN(x))
                .min()
                .orElse(0));
  }

  /** The measure to draw when none is asked for: that of the first need, else chill portions. */
  static ChillMeasure usual(ClimateOutlook outlook) {
    return outlook.varieties().stream()
        .flatMap(v -> v.needs().stream())
        .map(n -> n.need().measure())
        .findFirst()
        .orElse(ChillMeasure.CHILL_PORTIONS);
  }

  /** The picture as SVG. */
  static String svg(ClimateOutlook outlook, ChillMeasure measure, Words words) {
    return new ChillChart(outlook, measure, words).draw();
  }

  private Optional<ClimateOutlook.NeedMet> need(ClimateOutlook.VarietyOutlook variety) {
    return variety.needs().stream().filter(n -> n.need().measure() == measure).findFirst();
  }

  private String draw() {
    String title = words.say("chill.chart", "measure", named());
    Drawing picture = new Drawing(words, WIDTH, HEIGHT, title, description());
    picture.text(LEFT, 30, title, "font-size", 19, "font-weight", "bold", "fill", Palette.INK);
    picture.text(LEFT, 52, subtitle(), "fill", Palette.GREY);
    axes(picture);
    band(picture);
    lines(picture);
    needs(picture);
    named(picture);
    legend(picture);
    return picture.finish();
  }

  private String subtitle() {
    int complete = winters.complete().size();
    return words.say(
        "chill.chart.sum",
        "from",
        words.day(winters.season().from()),
        "winters",
        complete,
        "part",
        drawn.size() - complete);
  }

  /** The measure, to begin a sentence. */
  private String named() {
    return Words.capital(measure.label().in(words));
  }

  private double x(int day) {
    return LEFT + (RIGHT - LEFT) * (day + 1) / days;
  }

  private double y(double sum) {
    return BOTTOM - (BOTTOM - TOP) * (sum - least) / (most - least);
  }

  private void axes(Drawing picture) {
    double step = step(most - least);
    for (double tick = Math.ceil(least / step) * step; tick <= most; tick += step) {
      picture.line(LEFT, y(tick), RIGHT, y(tick), "stroke", Palette.RULE, "stroke-width", 1);
      picture.text(
          LEFT - 8,
          y(tick) + 4,
          String.valueOf(Math.round(tick)),
          "text-anchor",
          "end",
          "fill",
          Palette.GREY);
    }
    LocalDate first =
        drawn.isEmpty() ? winters.season().start(2023) : drawn.get(drawn.size() - 1).from();
    for (int d = 0; d < days; d++) {
      LocalDate day = first.plusDays(d);
      if (day.getDayOfMonth() != 1) continue;
      double at = x(d - 1);
      picture.line(at, BOTTOM, at, BOTTOM + 6, "stroke", Palette.GREY, "stroke-width", 1);
      if (RIGHT - at > 28)
        picture.text(at + 4, BOTTOM + 18, words.shortMonth(day.getMonth()), "fill", Palette.GREY);
    }
    picture.line(LEFT, BOTTOM, RIGHT, BOTTOM, "stroke", Palette.INK, "stroke-width", 1.2);
    picture.line(LEFT, TOP, LEFT, BOTTOM, "stroke", Palette.INK, "stroke-width", 1.2);
  }

  /** 1, 2 or 5 times a power of ten, so that there are five to ten ticks or so. */
  private static double step(double range) {
    double power = Math.pow(10, Math.floor(Math.log10(range / 5)));
    double times = range / 5 / power;
    return Math.max(1, power * (times < 2 ? 1 : times < 5 ? 2 : 5));
  }

  /** Where eight of ten complete winters run, and their median. */
  private void band(Drawing picture) {
    List<double[]> complete = new ArrayList<>();
    for (int k = 0; k < drawn.size(); k++)
      if (drawn.get(k).standing() == Winter.Standing.COMPLETE) complete.add(sums.get(k));
    if (complete.size() < LEAST_FOR_BAND) return;
    int n = complete.stream().mapToInt(s -> s.length).min().orElseThrow();
    StringBuilder area = new StringBuilder();
    StringBuilder median = new StringBuilder();
    double[] at = new double[complete.size()];
    for (int pass = 0; pass < 2; pass++) {
      for (int k = 0; k < n; k++) {
        int day = pass == 0 ? k : n - 1 - k;
        for (int w = 0; w < at.length; w++) at[w] = complete.get(w)[day];
        area.append(point(day, SafeChill.quantile(at, pass == 0 ? 0.1 : 0.9)));
        if (pass == 0) median.append(point(day, SafeChill.quantile(at, 0.5)));
      }
    }
    picture.shape(
        "polygon", "points", area.toString().strip(), "fill", Palette.SKY, "fill-opacity", 0.28);
    picture.shape(
        "polyline",
        "points",
        median.toString().strip(),
        "fill",
        "none",
        "stroke",
        Palette.BLUE,
        "stroke-width",
        3);
    double safe = SafeChill.of(winters.complete(measure));
    labels.add(
        new Label(
            RIGHT, y(safe), words.say("chill.chart.safe", "sum", Math.round(safe)), Palette.BLUE));
    picture.line(RIGHT - 6, y(safe), RIGHT + 6, y(safe), "stroke", Palette.BLUE, "stroke-width", 3);
  }

  private String point(int day, double sum) {
    return String.format(Locale.ROOT, "%.1f,%.1f ", x(day), y(sum));
  }

  private void lines(Drawing picture) {
    for (int k = 0; k < drawn.size(); k++) {
      boolean latest = k == drawn.size() - 1;
      StringBuilder points = new StringBuilder();
      double last = 0;
      double end = LEFT;
      for (int d = 0; d < sums.get(k).length; d++) {
        if (Double.isNaN(sums.get(k)[d])) continue;
        last = sums.get(k)[d];
        end = x(d);
        points.append(point(d, last));
      }
      boolean part = drawn.get(k).standing() == Winter.Standing.PARTIAL;
      picture.group(part(drawn.get(k).label() + ": " + Math.round(last), part));
      picture.shape(
          "polyline",
          "points",
          points.toString().strip(),
          "fill",
          "none",
          "stroke",
          latest ? Palette.VERMILION : Palette.GREY,
          "stroke-width",
          latest ? 2.2 : 1,
          "stroke-dasharray",
          latest ? "7 3" : "none",
          "stroke-opacity",
          latest ? 1 : 0.75);
      picture.end();
      if (latest || drawn.size() <= MOST_NAMED_WINTERS) {
        labels.add(
            new Label(
                end,
                y(last),
                part(drawn.get(k).label() + "  " + Math.round(last), part),
                latest ? Palette.VERMILION : Palette.GREY));
      }
    }
  }

  private void needs(Drawing picture) {
    for (int k = 0; k < needing.size(); k++) {
      ClimateOutlook.NeedMet met = need(needing.get(k)).orElseThrow();
      double at = y(met.need().likely());
      picture.line(
          LEFT,
          at,
          RIGHT,
          at,
          "stroke",
          Palette.INK,
          "stroke-width",
          1.6,
          "stroke-dasharray",
          DASHES[k % DASHES.length]);
      labels.add(
          new Label(
              RIGHT, at, need("chill.chart.need", needing.get(k).variety(), met), Palette.INK));
    }
  }

  private String need(String key, Variety variety, ClimateOutlook.NeedMet met) {
    return words.say(
        key,
        "variety",
        variety.name(),
        "need",
        Math.round(met.need().likely()),
        "known",
        met.chanceMet().isPresent(),
        "chance",
        Math.round(100 * met.chanceMet().orElse(0)));
  }

  private String part(String winter, boolean part) {
    return words.say("chill.chart.part", "part", part, "winter", winter);
  }

  /** Names at the right edge, pushed apart so that none lies on another, each tied to its line. */
  private void named(Drawing picture) {
    labels.sort(Comparator.comparingDouble(Label::y));
    double[] at = new double[labels.size()];
    for (int k = 0; k < at.length; k++)
      at[k] = Math.max(labels.get(k).y(), k == 0 ? TOP : at[k - 1] + LABEL_STEP);
    double bottom = BOTTOM;
    for (int k = at.length - 1; k >= 0 && at[k] > bottom; k--, bottom -= LABEL_STEP) at[k] = bottom;
    for (int k = 0; k < at.length; k++) {
      Label label = labels.get(k);
      if (label.x() < RIGHT - 1)
        picture.line(
            label.x() + 3,
            label.y(),
            RIGHT + 3,
            label.y(),
            "stroke",
            label.colour(),
            "stroke-width",
            0.8,
            "stroke-dasharray",
            "1 5");
      picture.line(
          RIGHT + 3, label.y(), LABEL_X - 4, at[k], "stroke", label.colour(), "stroke-width", 0.8);
      picture.text(
          LABEL_X,
          at[k] + 4,
          Drawing.shortened(label.text(), LABEL_LENGTH),
          "fill",
          label.colour(),
          "font-size",
          12.5);
    }
  }

  private void legend(Drawing picture) {
    double at = HEIGHT - 34;
    double x = LEFT;
    String band = words.say("chill.chart.band");
    String median = words.say("chill.chart.median");
    String latest = words.say("chill.chart.latest");
    String others = words.say("chill.chart.others");
    if (winters.complete().size() >= LEAST_FOR_BAND) {
      picture.rect(x, at - 9, 26, 12, "fill", Palette.SKY, "fill-opacity", 0.28);
      picture.text(x + 32, at + 2, band, "fill", Palette.INK);
      x += step(band);
      picture.line(x, at - 3, x + 26, at - 3, "stroke", Palette.BLUE, "stroke-width", 3);
      picture.text(x + 32, at + 2, median, "fill", Palette.INK);
      x += step(median);
    }
    picture.line(
        x,
        at - 3,
        x + 26,
        at - 3,
        "stroke",
        Palette.VERMILION,
        "stroke-width",
        2.2,
        "stroke-dasharray",
        "7 3");
    picture.text(x + 32, at + 2, latest, "fill", Palette.INK);
    x += step(latest);
    if (winters.complete().size() > 1) {
      picture.line(x, at - 3, x + 26, at - 3, "stroke", Palette.GREY, "stroke-width", 1);
      picture.text(x + 32, at + 2, others, "fill", Palette.INK);
      x += step(others);
    }
    if (!needing.isEmpty()) {
      picture.line(
          x,
          at - 3,
          x + 26,
          at - 3,
          "stroke",
          Palette.INK,
          "stroke-width",
          1.6,
          "stroke-dasharray",
          DASHES[0]);
      picture.text(x + 32, at + 2, words.say("chill.chart.needed"), "fill", Palette.INK);
    }
  }

  /** Room for a sign of the legend and its text. */
  private static double step(String text) {
    return 50 + 6.9 * text.length();
  }

  /** All that the picture says, in words. */
  private String description() {
    List<String> ends = new ArrayList<>();
    for (Winter winter : drawn)
      ends.add(
          words.say(
              "chill.chart.told.winter",
              "winter",
              winter.label(),
              "sum",
              Math.round(winter.chill().orElseThrow().of(measure)),
              "part",
              winter.standing() == Winter.Standing.PARTIAL));
    List<String> said = new ArrayList<>();
    said.add(
        words.say(
            "chill.chart.told",
            "measure",
            named(),
            "winters",
            ends.isEmpty() ? words.say("chill.chart.told.none") : String.join(", ", ends)));
    double[] complete = winters.complete(measure);
    if (complete.length > 0)
      said.add(words.say("chill.chart.told.safe", "sum", Math.round(SafeChill.of(complete))));
    for (ClimateOutlook.VarietyOutlook variety : needing)
      said.add(need("chill.chart.told.need", variety.variety(), need(variety).orElseThrow()));
    return String.join(" ", said);
  }
}
