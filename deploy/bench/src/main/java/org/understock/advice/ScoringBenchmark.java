package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.understock.bench.Apples;

/**
 * The scoring loop of the whole apple catalogue by itself, beside a bare loop over the same
 * numbers. In this package because the loop is nobody else's business.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 3)
@Measurement(iterations = 4, time = 3)
@Fork(1)
@State(Scope.Benchmark)
public class ScoringBenchmark {
  @Param({"nothing", "much"})
  String told;

  private Judging judging;
  private final double[] utility = new double[Draws.COUNT];
  private Adviser adviser;
  private Question question;

  @Setup
  public void judge() {
    adviser = Adviser.of(Apples.BOOK).warm();
    question = Apples.question("all", told.equals("much"));
    judging = adviser.judging(question, new ArrayList<>());
    System.out.println("scored: " + judging.order.size());
  }

  /**
   * The yardstick: every number that scoring a pairing reads is read once, in as few passes as the
   * formula has sums, and goes into one multiplication and one addition. No value function, no
   * limit, no mean.
   */
  @Benchmark
  public double bare() {
    double sum = 0;
    double[][] w = judging.field.weights;
    List<Integer> order = judging.order;
    for (int k = 0; k < order.size(); k++) {
      Judging.Pair pair = judging.pairs.get(order.get(k));
      Scores s = judging.tables.stocks.get(pair.stock()).scores();
      Scores v = judging.tables.varieties.get(pair.variety()).scores();
      Panel stock = judging.stockPanel(order.get(k));
      Panel variety = judging.varietyPanel(order.get(k));
      add(s.size(), v.size(), w[Field.SIZE], 0.1, 0.3, utility);
      add(s.time(), v.time(), w[Field.EARLY], 0.2, 0.3, utility);
      add(s.yield(), v.yield(), w[Field.YIELD], 0.3, 0.3, utility);
      add(s.life(), v.life(), w[Field.LIFE], 0.4, 0.3, utility);
      add(stock.preference(), variety.preference(), judging.matchWeight, 0.5, 0.3, utility);
      add(stock.limit(), variety.limit(), judging.availableWeight, 0.6, 0.3, utility);
      sum += utility[Draws.COUNT - 1];
    }
    return sum;
  }

  private static void add(
      double[] s, double[] v, double[] w, double mean, double spread, double[] utility) {
    for (int d = 0; d < Draws.COUNT; d++) utility[d] += w[d] * (mean + spread * (s[d] + v[d]));
  }

  /** Expectations alone. */
  @Benchmark
  public double trees() {
    double sum = 0;
    for (int i : judging.order) sum += judging.tree(judging.pairs.get(i)).muHeight();
    return sum;
  }

  /** Utility of each pairing that is not ruled out, and the race for the first place. */
  @Benchmark
  public double score() {
    double sum = 0;
    List<Integer> order = judging.order;
    for (int k = 0; k < order.size(); k++) {
      judging.utility(order.get(k), utility);
      sum += utility[Draws.COUNT - 1];
    }
    return sum;
  }

  @Benchmark
  public double scoreAndEnter() {
    double sum = 0;
    List<Integer> order = judging.order;
    for (int k = 0; k < order.size(); k++) {
      judging.utility(order.get(k), utility);
      judging.field.enter(order.get(k), utility);
      sum += utility[Draws.COUNT - 1];
    }
    return sum;
  }

  @Benchmark
  public Judging all() {
    return adviser.judging(question, new ArrayList<>());
  }
}
