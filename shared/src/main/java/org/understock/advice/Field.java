package org.understock.advice;

/**
 * The scores of all candidate pairings of one request, in arrays by pairing: the part of an answer
 * whose cost grows with the number of pairings.
 *
 * <p>Utility of a pairing in draw d: {@code L[d] * sum over criteria of w[c][d] * s[c][d]}, L the
 * product of its limits. Most criteria belong to the stock alone or the variety alone and were
 * summed once per subject ({@link Panel}); only size, early crop, yield and length of life belong
 * to the pairing, so the loop over pairings is short. What a limit costs is told apart from the
 * preferences: mean of {@code (L - 1) * sum}.
 */
final class Field {
  /** Mean factor of a limit below which a pairing is ruled out. */
  static final double RULED_OUT_BELOW = 0.25;

  static final int SIZE = 0;
  static final int EARLY = 1;
  static final int YIELD = 2;
  static final int LIFE = 3;
  static final int KINDS = 4;

  final double[] score;

  /** Mean of weight times satisfaction by kind and pairing. */
  final double[][] means;

  /** What the limits cost: mean of (L - 1) times the sum of preferences; 0 or less. */
  final double[] loss;

  /** Mean factor of the limit on size; NaN for a pairing that was not scored. */
  final double[] sizeLimit;

  final boolean[] out;
  final int[] timesBest;
  private final double[] bestUtility = new double[Draws.COUNT];
  private final int[] best = new int[Draws.COUNT];

  /** Weight times satisfaction of the pairing at hand, by kind and draw. */
  private final double[][] parts = new double[KINDS][Draws.COUNT];

  /** Factor of the limit on size of the pairing at hand, by draw. */
  private final double[] held = PairingJudgement.ONES.clone();

  /** Sum of preferences of the pairing at hand, by draw. */
  private final double[] preference = new double[Draws.COUNT];

  private final PairingJudgement judge;
  final double[][] weights;

  /**
   * @param weights by kind, the weight by draw; zeros where the criterion takes no part
   */
  Field(int n, PairingJudgement judge, double[][] weights) {
    this.judge = judge;
    this.weights = weights;
    score = new double[n];
    means = new double[KINDS][n];
    loss = new double[n];
    sizeLimit = new double[n];
    out = new boolean[n];
    timesBest = new int[n];
    java.util.Arrays.fill(sizeLimit, Double.NaN);
    java.util.Arrays.fill(bestUtility, Double.NEGATIVE_INFINITY);
    java.util.Arrays.fill(best, -1);
  }

  /** Natural-log means and spreads of one pairing's tree. */
  record Tree(
      double muHeight,
      double sdHeight,
      double muSpread,
      double sdSpread,
      double muEarly,
      double sdEarly,
      double muYield,
      double sdYield,
      double muLife,
      double sdLife) {}

  /**
   * Scores one pairing.
   *
   * @param unionChance chance that stock and variety grow together
   * @param match weight of the match of vigour by draw, and how well it is met
   * @param offered weight of availability by draw where the pairing is on offer, else zeros
   * @param utility receives the utility by draw, 0 to 1
   */
  void score(
      int i,
      Scores s,
      Scores v,
      Panel stock,
      Panel variety,
      Tree tree,
      double unionChance,
      double[] match,
      double matchMet,
      double[] offered,
      double[] utility) {
    for (int kind = 0; kind < KINDS; kind++) satisfy(kind, s, v, tree, weights[kind], parts[kind]);
    if (judge.limitsSize()) judge.sizeLimit(tree, s.size(), v.size(), held);
    add(
        stock.preference(),
        variety.preference(),
        parts[SIZE],
        parts[EARLY],
        parts[YIELD],
        parts[LIFE],
        match,
        matchMet,
        offered,
        preference);
    restrict(preference, stock.limit(), variety.limit(), held, unionChance, utility);
    for (int kind = 0; kind < KINDS; kind++) means[kind][i] = Draws.mean(parts[kind]);
    score[i] = Draws.mean(utility);
    loss[i] = score[i] - Draws.mean(preference);
    sizeLimit[i] = judge.limitsSize() ? Draws.mean(held) : 1;
  }

  /** Mean satisfaction of a pairing with a tree of its own, by kind. */
  double met(int kind, Scores s, Scores v, Tree tree) {
    satisfy(kind, s, v, tree, PairingJudgement.ONES, parts[kind]);
    return Draws.mean(parts[kind]);
  }

  private void satisfy(int kind, Scores s, Scores v, Tree tree, double[] weight, double[] into) {
    switch (kind) {
      case SIZE -> judge.size(tree, s.size(), v.size(), weight, into);
      case EARLY -> judge.early(tree, s.time(), v.time(), weight, into);
      case YIELD -> judge.yield(tree, s.yield(), v.yield(), weight, into);
      case LIFE -> judge.life(tree, s.life(), v.life(), weight, into);
      default -> throw new IllegalArgumentException("kind " + kind);
    }
  }

  private static void add(
      double[] stock,
      double[] variety,
      double[] size,
      double[] early,
      double[] yield,
      double[] life,
      double[] match,
      double matchMet,
      double[] offered,
      double[] into) {
    for (int d = 0; d < Draws.COUNT; d++) {
      into[d] =
          stock[d]
              + variety[d]
              + size[d]
              + early[d]
              + yield[d]
              + life[d]
              + match[d] * matchMet
              + offered[d];
    }
  }

  private static void restrict(
      double[] preference,
      double[] stock,
      double[] variety,
      double[] held,
      double unionChance,
      double[] into) {
    for (int d = 0; d < Draws.COUNT; d++)
      into[d] = preference[d] * (stock[d] * variety[d]) * (held[d] * unionChance);
  }

  /**
   * Enters a pairing that is not ruled out into the race for the first place in each draw; ties go
   * to the earlier one.
   */
  void enter(int i, double[] utility) {
    if (!ahead(utility, bestUtility)) return;
    for (int d = 0; d < Draws.COUNT; d++) best[d] = utility[d] > bestUtility[d] ? i : best[d];
    for (int d = 0; d < Draws.COUNT; d++) bestUtility[d] = Math.max(bestUtility[d], utility[d]);
  }

  /**
   * Whether one is above the other in any draw, told by the signs of the differences without a
   * branch: most pairings come first in no draw, and 256 branches for nothing cost a fifth of the
   * scoring.
   */
  private static boolean ahead(double[] utility, double[] best) {
    long a = 0, b = 0, c = 0, e = 0;
    for (int d = 0; d < Draws.COUNT; d += 4) {
      a |= Double.doubleToRawLongBits(best[d] - utility[d]);
      b |= Double.doubleToRawLongBits(best[d + 1] - utility[d + 1]);
      c |= Double.doubleToRawLongBits(best[d + 2] - utility[d + 2]);
      e |= Double.doubleToRawLongBits(best[d + 3] - utility[d + 3]);
    }
    return (a | b | c | e) < 0;
  }

  void close() {
    for (int i : best) if (i >= 0) timesBest[i]++;
  }
}
