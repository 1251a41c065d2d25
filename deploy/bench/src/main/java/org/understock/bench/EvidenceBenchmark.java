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
import org.understock.advice.Adviser;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Evidence;
import org.understock.evidence.pooling.TraitPools;
import org.understock.migrations.StarterEvidence;

/**
 * What a new revision costs: pooling its records, compiling the book, and making the adviser ready
 * for every crop.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 5)
@Measurement(iterations = 3, time = 5)
@Fork(1)
@State(Scope.Benchmark)
public class EvidenceBenchmark {
  /** Records in all; {@code starter} is the evidence that the service begins with. */
  @Param({"starter", "10000", "30000", "100000"})
  String records;

  private Evidence evidence;
  private CompiledTraitBook book;

  @Setup
  public void read() {
    evidence =
        records.equals("starter")
            ? StarterEvidence.read().evidence()
            : Multiplied.to(Integer.parseInt(records));
    System.out.println("records: " + evidence.records().size());
    book = CompiledTraitBook.compile(1, evidence);
  }

  @Benchmark
  public TraitPools pool() {
    return TraitPools.of(evidence);
  }

  @Benchmark
  public CompiledTraitBook compile() {
    return CompiledTraitBook.compile(1, evidence);
  }

  @Benchmark
  public Adviser warm() {
    return Adviser.of(book).warm();
  }
}
