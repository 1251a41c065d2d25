package org.understock.bench;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The least that judging the whole apple catalogue could cost: for every pairing, draw and
 * criterion of the tree read the draws of both sides and the weight, and add weight times (mean +
 * spread times draw) to the pairing's utility; no value function, no limit, no words. Advice is
 * told as a multiple of this.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 4, time = 3)
@Measurement(iterations = 4, time = 3)
@Fork(1)
@State(Scope.Benchmark)
public class MultiplyAddBenchmark {
  private static final int STOCKS = 46;
  private static final int VARIETIES = 193;
  private static final int KINDS = 4;
  private static final int DRAWS = 256;

  private final double[][][] stock = new double[STOCKS][KINDS][DRAWS];
  private final double[][][] variety = new double[VARIETIES][KINDS][DRAWS];
  private final double[][] weight = new double[KINDS][DRAWS];
  private final double[] utility = new double[DRAWS];

  @Setup
  public void draw() {
    SplittableRandom random = new SplittableRandom(1);
    for (double[][] one : stock)
      for (double[] row : one) for (int d = 0; d < DRAWS; d++) row[d] = random.nextDouble();
    for (double[][] one : variety)
      for (double[] row : one) for (int d = 0; d < DRAWS; d++) row[d] = random.nextDouble();
    for (double[] row : weight) for (int d = 0; d < DRAWS; d++) row[d] = random.nextDouble();
  }

  @Benchmark
  public double wholeCatalogue() {
    double sum = 0;
    for (double[][] s : stock) {
      for (double[][] v : variety) {
        for (int k = 0; k < KINDS; k++) add(s[k], v[k], weight[k], 0.1 * k, 0.3, utility);
        sum += utility[DRAWS - 1];
      }
    }
    return sum;
  }

  private static void add(
      double[] s, double[] v, double[] w, double mean, double spread, double[] utility) {
    for (int d = 0; d < DRAWS; d++) utility[d] += w[d] * (mean + spread * (s[d] + v[d]));
  }
}
