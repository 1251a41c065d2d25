package org.understock.growth;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;

/**
 * How one quantity follows stock size in one crop: {@code log y = a + b × size score + regime shift
 * + c × earliness + stock's own deviation}.
 *
 * <p>Fitted at compile time on all stocks and size classes of the crop that have both a size and a
 * record of the quantity. Slope and shifts lean on those of all crops together, so that a crop with
 * few records still answers, only wider. A stock with records of its own is drawn from the curve
 * towards them by inverse variance.
 */
final class Curve {
  /*
   * How far a crop's slope and shifts may lie from those of all crops together (standard deviations; judgement). Loose, because stock matters much
   * for apple and pear and little elsewhere (isu-bearing-age).
   */
  private static final double SLOPE_SD = 0.5;
  private static final double SHIFT_SD = 0.2;

  /**
   * How much a single stock's shift differs from the crop's: kept heights are 0.5 to 0.8 of the
   * free ones within one table (csu-cmg-771).
   */
  private static final double OWN_SHIFT_SD = 0.2;

  /**
   * Doubt about letting a full-sized seedling stock answer with the rows of the class "standard
   * seedling".
   */
  private static final double ALIKE_SD = 0.05;

  /*
   * Share of the slope of all crops that a crop starts from. Stock matters for the years to bearing of apple and pear, little for other fruits
   * (isu-bearing-age, no figure); life is taken to go along. Without this, the apple rows, by far the most, would make any dwarf peach bear at one.
   */
  private static final double STONE_FRUIT_SHARE = 0.4;

  /**
   * Difference in log years for one level of {@code precocity}: about an eighth sooner; judgement,
   * with its own doubt.
   */
  private static final double EARLINESS = -0.12;

  private static final double EARLINESS_SD = 0.08;

  /** Widest that contradicting statements make an answer, as a factor on its variance. */
  private static final double MOST_CONFLICT = 6;

  /**
   * Spread of a single published statement beyond what its range tells: rounding, and what exactly
   * was meant.
   */
  static final double STATEMENT_SD = 0.08;

  private final TraitBook book;
  private final Crop crop;
  private final Measure measure;
  private final LinearFit fit;
  private final int points;
  private final double placeSd;

  private Curve(
      TraitBook book, Crop crop, Measure measure, LinearFit fit, int points, double placeSd) {
    this.book = book;
    this.crop = crop;
    this.measure = measure;
    this.fit = fit;
    this.points = points;
    this.placeSd = placeSd;
  }

  /** One published quantity of one stock. */
  private record Seen(
      int regime, double y, double variance, double placeSd, Estimate.Support support) {}

  /** What all crops together say about a quantity: the prior of each crop's curve. */
  record Common(
      double interceptMean, double interceptSd, double[] slopeAndShifts, double residualSd) {}

  /** The curves' common part, fitted on all crops with an intercept for each. */
  static Common common(TraitBook book, Measure measure, java.util.Map<Crop, Sizes> sizes) {
    Crop[] crops = Crop.values();
    int extra = measure.regimes() + 1;
    List<LinearFit.Point> points = new ArrayList<>();
    int[] counts = new int[crops.length];
    for (Crop crop : crops) {
      for (LinearFit.Point p :
          points(
              book, crop, measure, Objects.requireNonNull(sizes.get(crop)), measure.usualSlope())) {
        double[] x = new double[crops.length + extra];
        x[crop.ordinal()] = 1;
        System.arraycopy(p.x(), 1, x, crops.length, extra);
        points.add(new LinearFit.Point(x, p.y(), p.variance()));
        counts[crop.ordinal()]++;
      }
    }
    double[] mean = new double[crops.length + extra];
    double[] sd = new double[crops.length + extra];
    java.util.Arrays.fill(sd, 10);
    prior(
        measure,
        mean,
        sd,
        crops.length,
        measure.usualSlope(),
        new double[measure.regimes()],
        1,
        0.5);
    LinearFit fit = LinearFit.of(points, new LinearFit.Prior(mean, sd, 0.25, 5));
    List<Double> intercepts = new ArrayList<>();
    for (Crop crop : crops)
      if (counts[crop.ordinal()] > 0) intercepts.add(fit.coefficient(crop.ordinal()));
    double average = intercepts.stream().mapToDouble(Double::doubleValue).average().orElse(0);
    double spread =
        Math.sqrt(
            intercepts.stream()
                .mapToDouble(i -> (i - average) * (i - average))
                .average()
                .orElse(1));
    double[] coefficients = new double[measure.regimes()];
    for (int i = 0; i < coefficients.length; i++)
      coefficients[i] = fit.coefficient(crops.length + i);
    return new Common(average, Math.max(0.3, spread), coefficients, fit.residualSd());
  }

  static Curve of(TraitBook book, Crop crop, Measure measure, Sizes sizes, Common common) {
    int n = measure.regimes() + 2;
    double[] mean = new double[n];
    double[] sd = new double[n];
    mean[0] = common.interceptMean;
    sd[0] = common.interceptSd;
    double[] shifts = common.slopeAndShifts.clone();
    boolean pome = crop == Crop.APPLE || crop == Crop.EUROPEAN_PEAR || crop == Crop.ASIAN_PEAR;
    double slope =
        shifts[0]
            * (pome || measure != Measure.TIME && measure != Measure.LIFE ? 1 : STONE_FRUIT_SHARE);
    prior(measure, mean, sd, 1, slope, shifts, SLOPE_SD, SHIFT_SD);
    LinearFit.Prior prior = new LinearFit.Prior(mean, sd, common.residualSd, 4);
    LinearFit first = LinearFit.of(points(book, crop, measure, sizes, slope), prior);
    List<LinearFit.Point> points = points(book, crop, measure, sizes, first.coefficient(1));
    return new Curve(
        book,
        crop,
        measure,
        LinearFit.of(points, prior),
        points.size(),
        typicalPlaceSd(book, crop, measure));
  }

  /**
   * Fills the priors of slope, shifts and earliness, which stand in this order from {@code at} on.
   */
  private static void prior(
      Measure measure,
      double[] mean,
      double[] sd,
      int at,
      double slope,
      double[] shifts,
      double slopeSd,
      double shiftSd) {
    mean[at] = slope;
    sd[at] = slopeSd;
    for (int r = 1; r < measure.regimes(); r++) {
      mean[at + r] = shifts[r];
      sd[at + r] = shiftSd;
    }
    mean[at + measure.regimes()] = measure == Measure.TIME ? EARLINESS : 0;
    sd[at + measure.regimes()] = measure == Measure.TIME ? EARLINESS_SD : 1e-6;
  }

  /** Number of published quantities that the crop's curve went through. */
  int points() {
    return points;
  }

  double slope() {
    return fit.coefficient(1);
  }

  /** Standard deviation of single stocks about the curve. */
  double residualSd() {
    return fit.residualSd();
  }

  /** Log of the factor from regime 0 to this one. */
  double shift(int regime) {
    return regime == 0 ? 0 : fit.coefficient(1 + regime);
  }

  /**
   * What is to be expected of a stock of this size under a regime.
   *
   * @param standard whether it is a full-sized seedling stock, so that rows on "standard seedling"
   *     trees speak of it too
   */
  Part part(String stock, Size size, boolean standard, int regime) {
    double[] x = covariates(book, crop, measure, stock, size, regime);
    double mean = fit.at(x);
    double variance =
        fit.varianceAt(x) + square(fit.residualSd()) + square(slope() * size.scoreSd());
    double place = placeSd;
    boolean placed = false;
    List<String> own = new ArrayList<>();
    List<String> ofStandard = new ArrayList<>();
    Grade grade = Grade.D;
    double conflict = 0;
    List<Seen> all = new ArrayList<>(seen(book, crop, measure, stock));
    int count = all.size();
    if (standard) all.addAll(seen(book, crop, measure, Sizes.STANDARD));
    for (int i = 0; i < all.size(); i++) {
      Seen seen = all.get(i);
      // a record under another regime counts after the shift, with the doubt that the shift is the
      // same for every stock
      double observed = seen.y - shift(seen.regime) + shift(regime);
      double doubt =
          (seen.regime == regime ? 0 : square(OWN_SHIFT_SD)) + (i < count ? 0 : square(ALIKE_SD));
      double total = variance + seen.variance + doubt;
      double gain = variance / total;
      conflict += square(observed - mean) / total;
      mean += gain * (observed - mean);
      variance *= 1 - gain;
      List<String> told = i < count ? own : ofStandard;
      if (seen.regime == regime) {
        // The stock's own records come first: what is told of standard trees fills only a gap.
        if (i < count || !placed) place = Math.max(seen.placeSd, placeSd / 2);
        placed = true;
        told.addAll(0, seen.support.records());
      } else {
        told.addAll(seen.support.records());
      }
      if (seen.support.grade().compareTo(grade) < 0) grade = seen.support.grade();
    }
    List<String> records = new ArrayList<>(own);
    records.addAll(ofStandard);
    // statements that contradict each other or the line beyond their spreads leave the answer
    // wider, not narrower (Birge ratio)
    if (!all.isEmpty()) variance *= Math.min(MOST_CONFLICT, Math.max(1, conflict / all.size()));
    boolean told = !records.isEmpty();
    Part.Basis basis =
        told
            ? Part.Basis.OWN
            : size.basis() == Part.Basis.CROP || points < 3 ? Part.Basis.CROP : Part.Basis.SIZE;
    List<String> behind = told ? records : size.records();
    LogNormal value = new LogNormal(mean, Math.hypot(Math.sqrt(variance), place));
    return new Part(
        value, place, behind.stream().distinct().toList(), told ? grade : size.grade(), basis);
  }

  /** The size that a stock's own records of this quantity point at, or null when it has none. */
  @org.jspecify.annotations.Nullable
  Size sizeFrom(String stock) {
    double weight = 0;
    double sum = 0;
    List<String> records = new ArrayList<>();
    for (Seen seen : seen(book, crop, measure, stock)) {
      double w = 1 / (seen.variance + square(fit.residualSd()));
      weight += w;
      sum += w * (seen.y - shift(seen.regime));
      records.addAll(seen.support.records());
    }
    if (records.isEmpty()) return null;
    double fraction =
        Math.min(1.2, Math.max(0.1, 1 + (sum / weight - fit.coefficient(0)) / slope()));
    double sd = Math.sqrt(1 / weight + square(fit.standardError(0))) / slope();
    return new Size(
        fraction, Math.min(0.6, sd / fraction), List.copyOf(records), Grade.D, Part.Basis.SIZE);
  }

  private static List<LinearFit.Point> points(
      TraitBook book, Crop crop, Measure measure, Sizes sizes, double slope) {
    List<LinearFit.Point> points = new ArrayList<>();
    sizes
        .all()
        .forEach(
            (stock, size) -> {
              if (size.basis() != Part.Basis.OWN)
                return; // a size read back from heights must not teach the height curve
              for (Seen seen : seen(book, crop, measure, stock)) {
                if (seen.support.inheritedFrom().isPresent()) continue;
                double variance = seen.variance + square(slope * size.scoreSd());
                points.add(
                    new LinearFit.Point(
                        covariates(book, crop, measure, stock, size, seen.regime),
                        seen.y,
                        variance));
              }
            });
    return points;
  }

  private static double[] covariates(
      TraitBook book, Crop crop, Measure measure, String stock, Size size, int regime) {
    double[] x = new double[measure.regimes() + 2];
    x[0] = 1;
    x[1] = size.score();
    if (regime > 0) x[1 + regime] = 1;
    if (measure == Measure.TIME) x[x.length - 1] = earliness(book, crop, stock);
    return x;
  }

  /** Mean level of {@code precocity}, 0 in the middle of the scale; 0 when nothing is known. */
  private static double earliness(TraitBook book, Crop crop, String stock) {
    if (!(Estimates.of(book, new Subject.StockIn(crop, stock), "precocity")
        instanceof Estimate.Levels levels)) return 0;
    double[] p = levels.probabilities();
    double mean = 0;
    for (int k = 0; k < p.length; k++) mean += k * p[k];
    return mean - (p.length - 1) / 2.0;
  }

  private static List<Seen> seen(TraitBook book, Crop crop, Measure measure, String stock) {
    List<Seen> seen = new ArrayList<>();
    for (Measure.Source source : measure.sources()) {
      if (Estimates.of(book, new Subject.StockIn(crop, stock), source.trait())
          instanceof Estimate.Quantity q) {
        seen.add(
            new Seen(
                source.regime(),
                q.logMean(),
                square(q.standardErrorLog()) + square(STATEMENT_SD),
                q.betweenLog(),
                q.support()));
      }
    }
    seen.sort(Comparator.comparingInt(Seen::regime));
    return seen;
  }

  /**
   * Median over the crop's stocks of what places add; 0.12 where nothing tells (a judgement: good
   * and poor ground differ by a quarter).
   */
  private static double typicalPlaceSd(TraitBook book, Crop crop, Measure measure) {
    double[] places =
        book.plants().stocks().stream()
            .filter(s -> s.crops().contains(crop))
            .flatMap(s -> seen(book, crop, measure, s.id()).stream())
            .mapToDouble(Seen::placeSd)
            .filter(p -> p > 0)
            .sorted()
            .toArray();
    return places.length == 0 ? 0.12 : Math.min(0.3, Math.max(0.08, places[places.length / 2]));
  }

  private static double square(double x) {
    return x * x;
  }
}
