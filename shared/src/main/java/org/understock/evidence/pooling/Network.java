package org.understock.evidence.pooling;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.ejml.data.DMatrixRMaj;
import org.understock.evidence.pooling.StratifiedModel.Evaluation;
import org.understock.evidence.pooling.StratifiedModel.Rows;
import org.understock.trait.Refusal;

/**
 * A network of treatments (stocks, or varieties in bloom) that share strata (trial tables), and the
 * differences between treatments that it supports: the arm-based network meta-analysis with fixed
 * strata and one variance τ² for every stratum-treatment mean, optionally a second one, ω², for
 * every group-treatment cell.
 *
 * <p>Strata with one treatment add nothing to differences. Treatments that no chain of strata joins
 * are in different islands: between islands nothing can be said, and {@link Fit#contrast} refuses.
 */
public final class Network {
  /**
   * Group of strata that are not measurements, such as a prior that ties two treatments: ω² is not
   * added to them.
   */
  public static final int NO_GROUP = -1;

  private final int treatments;
  private final Rows rows;
  private final int[] island;
  private final int[] base;
  private final int[] column;
  private final Map<Integer, Integer> groups = new TreeMap<>();

  /**
   * One mean.
   *
   * @param stratum index of the table it comes from; any order, any gaps
   * @param treatment index from 0
   * @param group index of the group (variety) of the stratum, for ω²; {@link #NO_GROUP} for a
   *     stratum that ω² does not touch
   * @param y the value on the scale of the model (natural log of a mean, or a day)
   * @param variance known variance of y, above 0
   * @param share share of τ²: 1 for a mean at one place, 1/m for a mean over m places
   */
  public record Row(
      int stratum, int treatment, int group, double y, double variance, double share) {
    public Row {
      if (!Double.isFinite(y)) throw new Refusal.OutOfRange("y", y, "a finite number");
      if (!(variance > 0)) throw new Refusal.OutOfRange("variance", variance, "above 0");
      if (!(share >= 0)) throw new Refusal.OutOfRange("share", share, "0 or more");
    }
  }

  /** The fitted network. */
  public static final class Fit {
    private final Network network;
    private final StratifiedModel model;
    private final Evaluation at;
    private final double q;
    private final double logLikelihood;

    private Fit(
        Network network, StratifiedModel model, Evaluation at, double q, double logLikelihood) {
      this.network = network;
      this.model = model;
      this.at = at;
      this.q = q;
      this.logLikelihood = logLikelihood;
    }

    /** Variance of one stratum-treatment mean. */
    public double tau2() {
      return at.tau2();
    }

    /** Standard error of τ² by its expected information, ω² taken as known. */
    public double tau2StandardError() {
      return Math.sqrt(1 / model.expectedInformation(at));
    }

    /** Variance of one group-treatment cell; 0 when it is not in the model. */
    public double omega2() {
      return at.omega2();
    }

    /** Cochran's Q: the weighted residual sum of squares without τ² and ω². */
    public double q() {
      return q;
    }

    /** Restricted log-likelihood with all its constants. */
    public double logLikelihood() {
      return logLikelihood;
    }

    /** Difference of two treatments. @throws Refusal.Conflict when no chain of strata joins them */
    public double contrast(int treatment, int reference) {
      network.requireJoined(treatment, reference);
      return effect(treatment) - effect(reference);
    }

    /**
     * Covariance of two differences to a common reference; with both treatments the same, the
     * variance of one.
     */
    public double covariance(int first, int second, int reference) {
      network.requireJoined(first, reference);
      network.requireJoined(second, reference);
      return cell(first, second)
          - cell(first, reference)
          - cell(reference, second)
          + cell(reference, reference);
    }

    /** Standard error of the difference of two treatments. */
    public double standardError(int treatment, int reference) {
      return Math.sqrt(Math.max(0, covariance(treatment, treatment, reference)));
    }

    /**
     * What is known of treatments under one group (stocks under a variety), on a common zero of
     * their island; only differences mean anything. Under a group that was never met, the doubt of
     * ω² is counted in.
     *
     * @param group as in the rows
     */
    UnderGroup under(int group, int[] treatments) {
      return UnderGroup.of(
          model, at, model.grouped() ? network.groups.getOrDefault(group, -1) : -1, treatments);
    }

    private double effect(int treatment) {
      int c = network.column[treatment];
      return c < 0 ? 0 : at.b()[c];
    }

    private double cell(int a, int b) {
      int i = network.column[a];
      int j = network.column[b];
      DMatrixRMaj covariance = at.covariance();
      return i < 0 || j < 0 ? 0 : covariance.get(i, j);
    }
  }

  private Network(int treatments, List<Row> given) {
    this.treatments = treatments;
    this.island = islands(treatments, given);
    this.rows = useful(given);
    this.base = new int[treatments];
    this.column = new int[treatments];
    Arrays.fill(base, -1);
    int next = 0;
    for (int t = 0; t < treatments; t++) {
      if (base[island[t]] < 0) base[island[t]] = t;
      column[t] = base[island[t]] == t ? -1 : next++;
    }
  }

  /**
   * A network of so many treatments, indexed from 0; every treatment may or may not be met in the
   * rows.
   */
  public static Network of(int treatments, List<Row> rows) {
    return new Network(treatments, rows);
  }

  /**
   * Island of each treatment, named by the lowest treatment in it (a treatment alone is its own
   * island).
   */
  private static int[] islands(int treatments, List<Row> rows) {
    int[] parent = new int[treatments];
    for (int t = 0; t < treatments; t++) parent[t] = t;
    Map<Integer, Integer> firstOf = new TreeMap<>();
    for (Row row : rows) {
      Integer first = firstOf.putIfAbsent(row.stratum(), row.treatment());
      if (first == null) continue;
      int a = root(parent, first);
      int b = root(parent, row.treatment());
      parent[Math.max(a, b)] = Math.min(a, b);
    }
    int[] island = new int[treatments];
    for (int t = 0; t < treatments; t++) island[t] = root(parent, t);
    return island;
  }

  private static int root(int[] parent, int t) {
    int at = t;
    while (parent[at] != at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  }

  /**
   * Rows of strata with two treatments or more, sorted, strata and groups numbered without gaps.
   */
  private Rows useful(List<Row> given) {
    List<Row> sorted = new ArrayList<>(given);
    /* A full order, values included: sums must not depend on the order in which rows came. */
    sorted.sort(
        Comparator.comparingInt(Row::stratum)
            .thenComparingInt(Row::treatment)
            .thenComparingDouble(Row::y)
            .thenComparingDouble(Row::variance)
            .thenComparingDouble(Row::share));
    List<Row> kept = new ArrayList<>();
    for (int start = 0; start < sorted.size(); ) {
      int end = start;
      while (end < sorted.size() && sorted.get(end).stratum() == sorted.get(start).stratum()) end++;
      if (sorted.get(start).treatment() != sorted.get(end - 1).treatment())
        kept.addAll(sorted.subList(start, end));
      start = end;
    }
    for (Row row : kept) groups.put(row.group(), 0);
    int next = 0;
    for (var entry : groups.entrySet()) entry.setValue(next++);
    int n = kept.size();
    int exempt = groups.getOrDefault(NO_GROUP, -1);
    Rows rows =
        new Rows(
            new int[n],
            new int[n],
            new int[n],
            new double[n],
            new double[n],
            new double[n],
            exempt);
    int stratum = -1;
    for (int i = 0; i < n; i++) {
      Row row = kept.get(i);
      if (i == 0 || kept.get(i - 1).stratum() != row.stratum()) stratum++;
      rows.stratum()[i] = stratum;
      rows.treatment()[i] = row.treatment();
      rows.group()[i] = Objects.requireNonNull(groups.get(row.group()));
      rows.y()[i] = row.y();
      rows.v()[i] = row.variance();
      rows.share()[i] = row.share();
    }
    return rows;
  }

  /** Whether some chain of strata joins the two. */
  public boolean joined(int first, int second) {
    return island[first] == island[second];
  }

  private void requireJoined(int first, int second) {
    if (!joined(first, second))
      throw new Refusal.Conflict(
          "treatment", "treatments " + first + " and " + second + " share no chain of strata");
  }

  /** Rows less strata and free treatments: what is left to estimate variances from. */
  public int degreesOfFreedom() {
    return rows.size() - rows.strata() - freeTreatments();
  }

  private int freeTreatments() {
    return (int) Arrays.stream(column).filter(c -> c >= 0).count();
  }

  /**
   * Fit with τ² by restricted maximum likelihood, and ω² too when asked for. Without degrees of
   * freedom τ² is not estimable: use {@link #fit(double, double)}.
   */
  public Fit fit(boolean withGroups) {
    if (degreesOfFreedom() <= 0)
      throw new Refusal.Conflict(
          "strata", "no degrees of freedom are left to estimate a variance between strata");
    StratifiedModel model = new StratifiedModel(rows, column, withGroups);
    return finish(model, Reml.fit(model));
  }

  /** Fit with variances carried over from elsewhere. */
  public Fit fit(double tau2, double omega2) {
    StratifiedModel model = new StratifiedModel(rows, column, omega2 > 0);
    return finish(model, model.at(tau2, omega2));
  }

  private Fit finish(StratifiedModel model, Evaluation at) {
    double q = model.at(0, 0).quadratic();
    int n = rows.size();
    double[] ones = new double[n];
    Arrays.fill(ones, 1);
    Rows plain =
        new Rows(
            rows.stratum(), rows.treatment(), rows.group(), new double[n], ones, new double[n], -1);
    /* At unit variances the model's own log-determinant is ln|X'X|. */
    double logDesign = -2 * new StratifiedModel(plain, column, false).at(0, 0).logLikelihood();
    double constant = -degreesOfFreedom() / 2.0 * Math.log(2 * Math.PI) + logDesign / 2;
    return new Fit(this, model, at, q, at.logLikelihood() + constant);
  }

  /** Whether the treatment stands beside another in some stratum. */
  public boolean met(int treatment) {
    return strataOf()[treatment] > 0;
  }

  /** The treatment met in most strata, the lowest index among equals. */
  public int bestConnected() {
    int[] strata = strataOf();
    int best = 0;
    for (int t = 1; t < strata.length; t++) if (strata[t] > strata[best]) best = t;
    return best;
  }

  private int[] strataOf() {
    int[] strata = new int[treatments];
    for (int r = 0; r < rows.size(); r++) {
      /* Rows are sorted by stratum and treatment: a treatment that stands twice in a stratum counts once. */
      boolean again =
          r > 0
              && rows.stratum()[r] == rows.stratum()[r - 1]
              && rows.treatment()[r] == rows.treatment()[r - 1];
      if (!again) strata[rows.treatment()[r]]++;
    }
    return strata;
  }
}
