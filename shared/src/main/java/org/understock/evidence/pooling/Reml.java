package org.understock.evidence.pooling;

import org.understock.evidence.pooling.StratifiedModel.Evaluation;

/**
 * Restricted maximum likelihood for the variances of a {@link StratifiedModel}: τ² alone, or τ² and
 * ω².
 *
 * <p>Newton steps with the average information (Gilmour, Thompson and Cullis 1995), halved until
 * the likelihood does not fall, cut at 0. A variance of 0 is a legitimate result.
 */
final class Reml {
  private static final int MOST_STEPS = 200;
  private static final double STILL = 1e-12;
  private static final int MOST_HALVINGS = 40;

  private Reml() {}

  /** The model at its restricted maximum. */
  static Evaluation fit(StratifiedModel model) {
    double start = momentStart(model);
    Evaluation at = model.at(start, model.grouped() ? start / 2 : 0);
    for (int step = 0; step < MOST_STEPS; step++) {
      double[] move = newtonStep(model, at);
      Evaluation next = climb(model, at, move);
      double moved =
          Math.max(Math.abs(next.tau2() - at.tau2()), Math.abs(next.omega2() - at.omega2()));
      at = next;
      if (moved <= STILL * (1 + at.tau2() + at.omega2())) return at;
    }
    return at;
  }

  /**
   * The moment estimate of τ² (DerSimonian and Laird's, for a model with fixed effects): what Q has
   * in excess of its expectation.
   */
  private static double momentStart(StratifiedModel model) {
    Evaluation none = model.at(0, 0);
    double squares = 0;
    for (int i = 0; i < none.residual().length; i++)
      squares += model.rows.share()[i] * none.residual()[i] * none.residual()[i];
    double trace = squares - 2 * none.scoreTau();
    int degreesOfFreedom = model.rows.size() - model.rows.strata() - model.columns;
    return trace > 0 ? Math.max(0, (none.quadratic() - degreesOfFreedom) / trace) : 0;
  }

  private static double[] newtonStep(StratifiedModel model, Evaluation at) {
    double[][] information = model.averageInformation(at);
    boolean tauFree = at.tau2() > 0 || at.scoreTau() > 0;
    boolean omegaFree = model.grouped() && (at.omega2() > 0 || at.scoreOmega() > 0);
    double a = information[0][0];
    double b = information[0][1];
    double c = information[1][1];
    double determinant = a * c - b * b;
    if (tauFree && omegaFree && determinant > 1e-9 * a * c) {
      return new double[] {
        (c * at.scoreTau() - b * at.scoreOmega()) / determinant,
        (a * at.scoreOmega() - b * at.scoreTau()) / determinant
      };
    }
    return new double[] {
      tauFree && a > 0 ? at.scoreTau() / a : 0, omegaFree && c > 0 ? at.scoreOmega() / c : 0
    };
  }

  private static Evaluation climb(StratifiedModel model, Evaluation from, double[] move) {
    double part = 1;
    for (int halving = 0; halving < MOST_HALVINGS; halving++, part /= 2) {
      double tau2 = Math.max(0, from.tau2() + part * move[0]);
      double omega2 = Math.max(0, from.omega2() + part * move[1]);
      if (tau2 == from.tau2() && omega2 == from.omega2()) return from;
      Evaluation next = model.at(tau2, omega2);
      if (next.logLikelihood() >= from.logLikelihood() - 1e-13 * Math.abs(from.logLikelihood()))
        return next;
    }
    return from;
  }
}
