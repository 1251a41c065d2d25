package org.understock.evidence.pooling;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.understock.trait.Refusal;

/**
 * Network meta-analysis of means that are comparable only inside strata, with one heterogeneity variance.
 *
 * <pre>y[s,k] = a[s] + b[k] + u[s,k] + e[s,k],   b[reference] = 0,   u ~ N(0, tau2),   e ~ N(0, v[s,k]), v known</pre>
 *
 * The intercepts a are fixed, so only contrasts inside a stratum inform b; a difference of two items at a new stratum varies by 2 tau2 beside its
 * standard error. tau2 by restricted maximum likelihood. Ties draw two items together: their difference is N(0, sd²) a priori.
 *
 * <p>Items that no chain of strata (or ties) joins to the reference form islands; their contrasts to it are not estimable, and are not given.
 */
public final class NetworkModel {
  /*
   * The intercepts are eliminated in closed form: with W = diag(1/(v + tau2)), M = W - W A (A'WA)^-1 A'W falls into one small block for each
   * stratum, and what is left to solve has one row for each item. With C = (Z'MZ + T)^-1 (T = precision of the ties, Z the item columns)
   * P = M - M Z C Z'M, and the traces that the REML iteration tau2 += (y'PPy - tr P)/tr PP asks for are sums over blocks:
   *
   *   tr P  = tr M  - tr(C Z'M²Z)
   *   tr PP = tr M² - 2 tr(C Z'M³Z) + tr(C Z'M²Z C Z'M²Z)
   *
   * so the cost grows with the rows (times the size of their stratum) and with the cube of the number of items, never with the square of the rows.
   * Formulas: Viechtbauer 2005 for the iteration; the elimination is plain algebra. Every island keeps one item as its own zero.
   */
  private static final double CONVERGED = 1e-11;
  private static final int MOST_STEPS = 500;

  private final Design design;
  private final double[] y;
  private final double[] v;

  private NetworkModel(Design design, double[] y, double[] v) {
    this.design = design;
    this.y = y;
    this.v = v;
  }

  /** Two items held together: their difference has this standard deviation a priori. */
  public record Tie(int item, int other, double sd) {}

  /**
   * @param tau2 heterogeneity variance of one mean; 0 when it cannot be estimated
   * @param tau2Se its standard error; NaN when it cannot be estimated
   * @param estimable whether there are more rows than parameters, so that tau2 is estimable at all
   * @param degreesOfFreedom rows minus parameters (over all islands)
   * @param estimate contrast to the reference by item; NaN on islands
   * @param standardError of the contrast by item; NaN on islands
   * @param covariance of the contrasts, rows and columns by item; NaN on islands
   * @param strata number of strata of two or more items in which the item was met
   * @param q Cochran's Q at tau2 = 0
   */
  public record Fit(double tau2, double tau2Se, boolean estimable, int degreesOfFreedom, double[] estimate, double[] standardError, double[][] covariance,
      int[] strata, double q) {}

  /**
   * Fits the model. Strata with a single row add nothing and are left out.
   *
   * @param stratum index of the stratum by row
   * @param item index of the item by row; an item may stand several times in a stratum
   * @param v sampling variance by row, above 0
   * @param items number of items
   * @param reference the item to which contrasts are taken
   */
  public static Fit fit(int[] stratum, int[] item, double[] y, double[] v, int items, int reference, List<Tie> ties) {
    return fit(stratum, item, y, v, items, reference, ties, OptionalDouble.empty());
  }

  /**
   * As {@link #fit(int[], int[], double[], double[], int, int, List)}, with a heterogeneity variance carried over from elsewhere.
   *
   * @param carriedTau2 used in place of an estimate, where given
   */
  public static Fit fit(int[] stratum, int[] item, double[] y, double[] v, int items, int reference, List<Tie> ties, OptionalDouble carriedTau2) {
    for (double variance : v) if (!(variance > 0)) throw new Refusal.OutOfRange("v", variance, "above 0");
    Design design = Design.of(stratum, item, items, reference, ties);
    double[] kept = new double[design.rows.length];
    double[] variances = new double[design.rows.length];
    for (int r = 0; r < kept.length; r++) {
      kept[r] = y[design.rows[r]];
      variances[r] = v[design.rows[r]];
    }
    return new NetworkModel(design, kept, variances).fit(carriedTau2);
  }

  private Fit fit(OptionalDouble carriedTau2) {
    int df = y.length - design.strata - design.parameters;
    boolean estimable = df > 0;
    double tau2 = 0;
    double tau2Se = Double.NaN;
    double q = Double.NaN;
    if (estimable && carriedTau2.isEmpty()) {
      Solution start = solve(0);
      q = start.q;
      tau2 = Math.max(0, (start.q - df) / Math.max(start.trP, 1e-12));
      double step = 1;
      for (int k = 0; k < MOST_STEPS && Math.abs(step) > CONVERGED; k++) {
        Solution at = solve(tau2);
        double next = Math.max(0, tau2 + (at.yPPy - at.trP) / at.trPP);
        step = next - tau2;
        tau2 = next;
      }
      tau2Se = Math.sqrt(2 / solve(tau2).trPP);
    }
    return carriedTau2.isPresent() ? answer(carriedTau2.getAsDouble(), Double.NaN, false, df, q) : answer(tau2, tau2Se, estimable, df, q);
  }

  private Fit answer(double tau2, double tau2Se, boolean estimable, int df, double q) {
    Solution at = solve(tau2);
    int n = design.items;
    double[] estimate = new double[n];
    double[] se = new double[n];
    double[][] covariance = new double[n][n];
    for (int k = 0; k < n; k++) {
      boolean same = design.island[k] == design.island[design.reference] && design.met(k);
      estimate[k] = same ? (design.column[k] < 0 ? 0 : at.b[design.column[k]]) : Double.NaN;
      for (int m = 0; m < n; m++) {
        boolean both = same && design.island[m] == design.island[design.reference] && design.met(m);
        covariance[k][m] = !both ? Double.NaN
            : design.column[k] < 0 || design.column[m] < 0 ? 0 : at.c.get(design.column[k], design.column[m]);
      }
      se[k] = same ? Math.sqrt(covariance[k][k]) : Double.NaN;
    }
    return new Fit(tau2, tau2Se, estimable, df, estimate, se, covariance, design.met, q);
  }

  private record Solution(double[] b, DMatrixRMaj c, double trP, double trPP, double yPPy, double q) {}

  private Solution solve(double tau2) {
    int p = design.parameters;
    DMatrixRMaj zmz = design.ties.copy();
    DMatrixRMaj zmmz = new DMatrixRMaj(p, p);
    DMatrixRMaj zmmmz = new DMatrixRMaj(p, p);
    DMatrixRMaj zmy = new DMatrixRMaj(p, 1);
    double trM = 0;
    double trMM = 0;
    double[][][] blocks = new double[design.strata][][];
    for (int s = 0; s < design.strata; s++) {
      double[][] m = block(s, tau2);
      double[][] mm = times(m, m);
      double[][] mmm = times(mm, m);
      blocks[s] = m;
      int from = design.from[s];
      for (int i = 0; i < m.length; i++) {
        trM += m[i][i];
        trMM += mm[i][i];
        int a = design.column[design.itemOf[from + i]];
        if (a < 0) continue;
        for (int j = 0; j < m.length; j++) {
          zmy.add(a, 0, m[i][j] * y[from + j]);
          int b = design.column[design.itemOf[from + j]];
          if (b < 0) continue;
          zmz.add(a, b, m[i][j]);
          zmmz.add(a, b, mm[i][j]);
          zmmmz.add(a, b, mmm[i][j]);
        }
      }
    }
    DMatrixRMaj c = inverse(zmz);
    DMatrixRMaj b = new DMatrixRMaj(p, 1);
    CommonOps_DDRM.mult(c, zmy, b);
    DMatrixRMaj cmm = new DMatrixRMaj(p, p);
    CommonOps_DDRM.mult(c, zmmz, cmm);
    double trP = trM - CommonOps_DDRM.trace(cmm);
    double trPP = trMM - 2 * traceOfProduct(c, zmmmz) + traceOfProduct(cmm, cmm);
    double[] beta = b.getData().clone();
    double yPPy = 0;
    double q = 0;
    for (int s = 0; s < design.strata; s++) {
      double[][] m = blocks[s];
      int from = design.from[s];
      double[] rest = new double[m.length];
      for (int i = 0; i < m.length; i++) {
        int a = design.column[design.itemOf[from + i]];
        rest[i] = y[from + i] - (a < 0 ? 0 : beta[a]);
      }
      for (int i = 0; i < m.length; i++) {
        double py = 0;
        for (int j = 0; j < m.length; j++) py += m[i][j] * rest[j];
        yPPy += py * py;
        q += rest[i] * py;
      }
    }
    return new Solution(beta, c, trP, trPP, yPPy, q);
  }

  /** W - w w'/sum(w) of one stratum. */
  private double[][] block(int s, double tau2) {
    int from = design.from[s];
    int k = design.from[s + 1] - from;
    double[] w = new double[k];
    double sum = 0;
    for (int i = 0; i < k; i++) sum += w[i] = 1 / (v[from + i] + tau2);
    double[][] m = new double[k][k];
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) m[i][j] = (i == j ? w[i] : 0) - w[i] * w[j] / sum;
    }
    return m;
  }

  private static double[][] times(double[][] a, double[][] b) {
    int n = a.length;
    double[][] c = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        double x = a[i][k];
        for (int j = 0; j < n; j++) c[i][j] += x * b[k][j];
      }
    }
    return c;
  }

  private static DMatrixRMaj inverse(DMatrixRMaj a) {
    DMatrixRMaj inverse = new DMatrixRMaj(a.getNumRows(), a.getNumCols());
    if (a.getNumRows() > 0 && !CommonOps_DDRM.invert(a, inverse)) throw new IllegalStateException("information matrix of the network is singular");
    return inverse;
  }

  private static double traceOfProduct(DMatrixRMaj a, DMatrixRMaj b) {
    double sum = 0;
    for (int i = 0; i < a.getNumRows(); i++) for (int j = 0; j < a.getNumCols(); j++) sum += a.get(i, j) * b.get(j, i);
    return sum;
  }

  /** Which rows take part, in the order of their strata; which items share an island; which column of the item matrix is whose. */
  private static final class Design {
    final int items;
    final int reference;
    final int[] rows;
    final int[] itemOf;
    final int[] from;
    final int strata;
    final int[] island;
    final int[] column;
    final int parameters;
    final int[] met;
    final DMatrixRMaj ties;
    private final boolean[] tied;

    private Design(int items, int reference, int[] rows, int[] itemOf, int[] from, int[] island, int[] met, boolean[] tied, List<Tie> ties) {
      this.items = items;
      this.reference = reference;
      this.rows = rows;
      this.itemOf = itemOf;
      this.from = from;
      this.strata = from.length - 1;
      this.island = island;
      this.met = met;
      this.tied = tied;
      column = new int[items];
      Arrays.fill(column, -1);
      boolean[] zeroed = new boolean[items];
      if (met(reference)) zeroed[island[reference]] = true;
      int next = 0;
      for (int k = 0; k < items; k++) {
        if (k == reference || !met(k)) continue;
        if (!zeroed[island[k]]) {
          zeroed[island[k]] = true;   // the island's own zero
          continue;
        }
        column[k] = next++;
      }
      parameters = next;
      this.ties = new DMatrixRMaj(parameters, parameters);
      for (Tie tie : ties) precision(tie);
    }

    /** Whether an item takes part: met beside another in some stratum, or tied to one that is. */
    boolean met(int item) {
      return met[item] > 0 || tied[item];
    }

    private void precision(Tie tie) {
      if (!met(tie.item()) || !met(tie.other())) return;
      double w = 1 / (tie.sd() * tie.sd());
      int a = column[tie.item()];
      int b = column[tie.other()];
      if (a >= 0) ties.add(a, a, w);
      if (b >= 0) ties.add(b, b, w);
      if (a >= 0 && b >= 0) {
        ties.add(a, b, -w);
        ties.add(b, a, -w);
      }
    }

    static Design of(int[] stratum, int[] item, int items, int reference, List<Tie> ties) {
      int strata = Arrays.stream(stratum).max().orElse(-1) + 1;
      int[] count = new int[strata];
      for (int s : stratum) count[s]++;
      int[] start = new int[strata + 1];
      int kept = 0;
      int used = 0;
      for (int s = 0; s < strata; s++) {
        start[s] = kept;
        if (count[s] > 1) {
          kept += count[s];
          used++;
        }
      }
      int[] rows = new int[kept];
      int[] itemOf = new int[kept];
      int[] fill = start.clone();
      for (int r = 0; r < stratum.length; r++) {
        if (count[stratum[r]] < 2) continue;
        rows[fill[stratum[r]]] = r;
        itemOf[fill[stratum[r]]++] = item[r];
      }
      int[] from = new int[used + 1];
      int at = 0;
      for (int s = 0; s < strata; s++) if (count[s] > 1) from[at++] = start[s];
      from[used] = kept;
      return new Design(items, reference, rows, itemOf, from, islands(itemOf, from, items, ties), met(itemOf, from, items), tied(itemOf, items, ties), ties);
    }

    /** An unmet item tied (through others, if need be) to a met one is estimable from its tie. */
    private static boolean[] tied(int[] itemOf, int items, List<Tie> ties) {
      boolean[] reached = new boolean[items];
      for (int k : itemOf) reached[k] = true;
      boolean changed = true;
      while (changed) {
        changed = false;
        for (Tie tie : ties) {
          if (reached[tie.item()] == reached[tie.other()]) continue;
          reached[tie.item()] = true;
          reached[tie.other()] = true;
          changed = true;
        }
      }
      return reached;
    }

    private static int[] met(int[] itemOf, int[] from, int items) {
      int[] met = new int[items];
      for (int s = 0; s + 1 < from.length; s++) {
        Arrays.stream(itemOf, from[s], from[s + 1]).distinct().forEach(k -> met[k]++);
      }
      return met;
    }

    private static int[] islands(int[] itemOf, int[] from, int items, List<Tie> ties) {
      int[] parent = new int[items];
      for (int k = 0; k < items; k++) parent[k] = k;
      for (int s = 0; s + 1 < from.length; s++) {
        for (int r = from[s] + 1; r < from[s + 1]; r++) join(parent, itemOf[from[s]], itemOf[r]);
      }
      for (Tie tie : ties) join(parent, tie.item(), tie.other());
      int[] island = new int[items];
      for (int k = 0; k < items; k++) island[k] = find(parent, k);
      return island;
    }

    private static void join(int[] parent, int a, int b) {
      int x = find(parent, a);
      int z = find(parent, b);
      parent[Math.max(x, z)] = Math.min(x, z);
    }

    private static int find(int[] parent, int k) {
      int at = k;
      while (parent[at] != at) at = parent[at] = parent[parent[at]];
      return at;
    }
  }

  /** The item met in most strata, the lowest index among equals: the best-connected reference. Empty when there are no rows. */
  public static OptionalInt bestConnected(int[] stratum, int[] item, int items) {
    int[] met = Design.of(stratum, item, items, 0, List.of()).met;
    int best = -1;
    for (int k = 0; k < items; k++) if (met[k] > 0 && (best < 0 || met[k] > met[best])) best = k;
    return best < 0 ? OptionalInt.empty() : OptionalInt.of(best);
  }
}
