package org.understock.advice;

/**
 * The scores of all candidate pairings of one request, in arrays by pairing: the part of an answer whose cost grows with the number of pairings.
 *
 * <p>Utility of a pairing in draw d: {@code L[d] * sum over criteria of w[c][d] * s[c][d]}, L the product of its limits. Most criteria belong to the
 * stock alone or the variety alone and were summed once per subject ({@link Panel}); only size, early crop, yield and length of life belong to the
 * pairing, so the loop over pairings is short. What a limit costs is told apart from the preferences: mean of {@code (L - 1) * sum}.
 */
final class Field {
  /** Mean factor of a limit below which a pairing is ruled out. */
  static final double RULED_OUT_BELOW = 0.25;

  static final int SIZE = 0;
  static final int EARLY = 1;
  static final int YIELD = 2;
  static final int LIFE = 3;
  static final int KINDS = 4;

  final int n;
  final double[] score;
  /** Mean of weight times satisfaction by kind and pairing. */
  final double[][] means;
  final double[][] met;
  final double[] matchMean;
  final double[] availableMean;
  /** What the limits cost: mean of (L - 1) times the sum of preferences; 0 or less. */
  final double[] loss;
  final double[] sizeLimit;
  final boolean[] out;
  final int[] timesBest;
  private final double[] bestUtility = new double[Draws.COUNT];
  private final int[] best = new int[Draws.COUNT];

  Field(int n) {
    this.n = n;
    score = new double[n];
    means = new double[KINDS][n];
    met = new double[KINDS][n];
    matchMean = new double[n];
    availableMean = new double[n];
    loss = new double[n];
    sizeLimit = new double[n];
    out = new boolean[n];
    timesBest = new int[n];
    java.util.Arrays.fill(bestUtility, Double.NEGATIVE_INFINITY);
    java.util.Arrays.fill(best, -1);
  }

  /** Natural-log means and spreads of one pairing's tree. */
  record Tree(double muHeight, double sdHeight, double muSpread, double sdSpread, double muEarly, double sdEarly, double muYield, double sdYield,
      double muLife, double sdLife) {}

  /**
   * Scores one pairing.
   *
   * @param weights by kind, the weight by draw; zeros where the criterion takes no part
   * @param unionChance chance that stock and variety grow together
   * @param constant weight times satisfaction of what does not vary with the tree's draw (match of vigour, availability), by draw
   * @return utility by draw, 0 to 1
   */
  double[] score(int i, Scores s, Scores v, Panel stock, Panel variety, Tree tree, PairingJudgement judge, double[][] weights,
      double unionChance, double[] constant, double[] utility) {
    double[] sums = new double[KINDS];
    double[] plain = new double[KINDS];
    double sizeLimitSum = 0;
    double total = 0;
    double free = 0;
    double[] wSize = weights[SIZE];
    double[] wEarly = weights[EARLY];
    double[] wYield = weights[YIELD];
    double[] wLife = weights[LIFE];
    for (int d = 0; d < Draws.COUNT; d++) {
      double zSize = s.size()[d] + v.size()[d];
      double logHeight = tree.muHeight + tree.sdHeight * zSize;
      double logSpread = tree.muSpread + tree.sdSpread * zSize;
      double size = judge.size(logHeight, logSpread);
      double early = judge.early(tree.muEarly + tree.sdEarly * (s.time()[d] + v.time()[d]));
      double yield = judge.yield(tree.muYield + tree.sdYield * (s.yield()[d] + v.yield()[d]));
      double life = judge.life(tree.muLife + tree.sdLife * (s.life()[d] + v.life()[d]));
      double held = judge.sizeLimit(logHeight, logSpread);
      double a = wSize[d] * size;
      double b = wEarly[d] * early;
      double c = wYield[d] * yield;
      double e = wLife[d] * life;
      sums[SIZE] += a;
      sums[EARLY] += b;
      sums[YIELD] += c;
      sums[LIFE] += e;
      plain[SIZE] += size;
      plain[EARLY] += early;
      plain[YIELD] += yield;
      plain[LIFE] += life;
      sizeLimitSum += held;
      double preference = stock.preference()[d] + variety.preference()[d] + a + b + c + e + constant[d];
      double u = preference * stock.limit()[d] * variety.limit()[d] * held * unionChance;
      utility[d] = u;
      total += u;
      free += preference;
    }
    for (int k = 0; k < KINDS; k++) {
      means[k][i] = sums[k] / Draws.COUNT;
      met[k][i] = plain[k] / Draws.COUNT;
    }
    score[i] = total / Draws.COUNT;
    loss[i] = (total - free) / Draws.COUNT;
    sizeLimit[i] = sizeLimitSum / Draws.COUNT;
    return utility;
  }

  /** Enters a pairing that is not ruled out into the race for the first place in each draw; ties go to the earlier one. */
  void enter(int i, double[] utility) {
    for (int d = 0; d < Draws.COUNT; d++) {
      if (utility[d] > bestUtility[d]) {
        bestUtility[d] = utility[d];
        best[d] = i;
      }
    }
  }

  void close() {
    for (int i : best) if (i >= 0) timesBest[i]++;
  }
}
