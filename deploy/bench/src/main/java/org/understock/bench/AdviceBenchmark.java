package org.understock.bench;

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
import org.understock.advice.Advice;
import org.understock.advice.Adviser;
import org.understock.advice.Question;

/**
 * Advice with ten pairings shown, by the number of pairings judged and by how much the asker told.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 4, time = 5)
@Measurement(iterations = 4, time = 5)
@Fork(1)
@State(Scope.Benchmark)
public class AdviceBenchmark {
  /**
   * Pairings asked for; {@code all} is what the catalogue advises unasked, {@code every} all stocks
   * and varieties in it.
   */
  @Param({"20", "300", "2500", "all", "every"})
  String pairings;

  /** Whether nothing but the crop is told, or nearly all that can be. */
  @Param({"nothing", "much"})
  String told;

  private Adviser adviser;
  private Question question;

  @Setup
  public void ask() {
    adviser = Adviser.of(Apples.BOOK).warm();
    question = Apples.question(pairings, told.equals("much"));
    System.out.println("pairings judged: " + adviser.advise(question).considered());
  }

  @Benchmark
  public Advice advise() {
    return adviser.advise(question);
  }
}
