package org.understock.bench;

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
import org.understock.evidence.pooling.Network;

/**
 * Pooling one table of means: the variance between sites by restricted likelihood, and every
 * stock's effect with its standard error.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 3)
@Measurement(iterations = 4, time = 3)
@Fork(1)
@State(Scope.Benchmark)
public class PoolingBenchmark {
  @Param({"fuji", "invented"})
  String table;

  private List<Network.Row> rows;
  private int stocks;

  @Setup
  public void read() {
    rows = Plantings.rows(table);
    stocks = 1 + rows.stream().mapToInt(Network.Row::treatment).max().orElseThrow();
    System.out.println("means: " + rows.size() + ", stocks: " + stocks);
  }

  @Benchmark
  public double pool() {
    Network.Fit fit = Plantings.network(rows).fit(false);
    double sum = 0;
    for (int stock = 1; stock < stocks; stock++)
      sum += fit.contrast(stock, 0) + fit.standardError(stock, 0);
    return sum;
  }
}
