package org.understock.bench;

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
import org.understock.climate.Chill;
import org.understock.climate.DynamicModel;
import org.understock.climate.Season;
import org.understock.climate.TemperatureSeries;
import org.understock.climate.Winters;

/** Chill and heat of thirty years of hours, 262 800 values. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 3)
@Fork(1)
public class ChillBenchmark {
  private double[] hourlyC;
  private int[] minutes;

  @Setup
  public void hours() {
    hourlyC = ThirtyYears.hourlyC();
    minutes = new int[hourlyC.length];
    for (int h = 0; h < minutes.length; h++) minutes[h] = 60 * h;
  }

  /** Chilling hours, Utah units, portions and degree hours of every hour, in one run. */
  @Benchmark
  public Chill fourModels() {
    return ThirtyYears.sum(hourlyC);
  }

  /** The Dynamic Model alone. */
  @Benchmark
  public double portions() {
    DynamicModel dynamic = new DynamicModel();
    double sum = 0;
    for (double t : hourlyC) sum += dynamic.hour(t);
    return sum;
  }

  /** From a logger's readings to winters from October to March, as {@code /v1/chill} does it. */
  @Benchmark
  public Winters winters() {
    return Winters.of(
        TemperatureSeries.ofReadings(ThirtyYears.START, minutes, hourlyC), Season.usual(47));
  }
}
