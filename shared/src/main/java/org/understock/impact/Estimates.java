package org.understock.impact;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.understock.evidence.Estimate;
import org.understock.evidence.Intervals;

/** Compares estimates: to the last bit, as shown, and by how far they lie apart. */
final class Estimates {
  private static final MathContext SHOWN = new MathContext(4);

  private Estimates() {}

  /** Whether two estimates are the same to the last bit, and rest on the same records. */
  static boolean same(Estimate a, Estimate b) {
    if (a instanceof Estimate.Levels l && b instanceof Estimate.Levels m) {
      return l.levels().equals(m.levels())
          && Arrays.equals(l.alpha(), m.alpha())
          && l.support().equals(m.support());
    }
    return a.equals(b);
  }

  /**
   * Whether two estimates look the same: middle, intervals, probabilities and votes to four
   * figures, grade, reference and origin.
   */
  static boolean alike(Estimate a, Estimate b) {
    return shown(a).equals(shown(b));
  }

  private static List<Object> shown(Estimate estimate) {
    List<Object> shown = new ArrayList<>();
    shown.add(estimate.getClass());
    shown.add(estimate.support().grade());
    shown.add(estimate.support().inheritedFrom());
    if (estimate instanceof Estimate.Ratio r) {
      shown.add(r.reference());
      intervals(shown, Intervals.of(r));
    } else if (estimate instanceof Estimate.Quantity q) {
      intervals(shown, Intervals.of(q));
    } else if (estimate instanceof Estimate.Interval i) {
      intervals(shown, Intervals.of(i));
    } else if (estimate instanceof Estimate.Levels l) {
      for (double p : l.probabilities()) shown.add(figures(p));
    } else if (estimate instanceof Estimate.Named n) {
      n.votes()
          .forEach(
              (name, votes) -> {
                shown.add(name);
                shown.add(figures(votes));
              });
    } else if (estimate instanceof Estimate.NotComparable none) {
      shown.add(none.reference());
      shown.add(none.strata());
    }
    return shown;
  }

  private static void intervals(List<Object> shown, Intervals i) {
    for (double x :
        new double[] {i.value(), i.low(), i.high(), i.predictionLow(), i.predictionHigh()})
      shown.add(figures(x));
  }

  private static double figures(double x) {
    return x == 0 || !Double.isFinite(x) ? x : new BigDecimal(x).round(SHOWN).doubleValue();
  }

  /**
   * How far the second lies from the first: for quantities the move of the middle in half widths of
   * the first's interval of the mean, for levels the share of the probability that moved; infinite
   * where the two can't be compared.
   */
  static double distance(Estimate a, Estimate b) {
    if (a instanceof Estimate.Ratio r
        && b instanceof Estimate.Ratio s
        && r.reference().equals(s.reference())) {
      return moved(r.logMean(), s.logMean(), r.logMean() - Math.log(Intervals.of(r).low()));
    }
    if (a instanceof Estimate.Quantity q && b instanceof Estimate.Quantity s) {
      return moved(q.logMean(), s.logMean(), q.logMean() - Math.log(Intervals.of(q).low()));
    }
    if (a instanceof Estimate.Interval i && b instanceof Estimate.Interval s)
      return moved(i.mean(), s.mean(), i.mean() - Intervals.of(i).low());
    if (a instanceof Estimate.Levels l
        && b instanceof Estimate.Levels m
        && l.levels().equals(m.levels())) {
      double[] p = l.probabilities();
      double[] q = m.probabilities();
      double sum = 0;
      for (int k = 0; k < p.length; k++) sum += Math.abs(p[k] - q[k]);
      return sum / 2;
    }
    if (a instanceof Estimate.Named n && b instanceof Estimate.Named m)
      return n.best().equals(m.best()) ? 0 : 1;
    return Double.POSITIVE_INFINITY;
  }

  private static double moved(double from, double to, double halfWidth) {
    if (from == to) return 0;
    return halfWidth > 0 ? Math.abs(to - from) / halfWidth : Double.POSITIVE_INFINITY;
  }
}
