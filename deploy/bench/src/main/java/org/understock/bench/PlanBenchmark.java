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
import org.understock.advice.Adviser;
import org.understock.planting.Layout;
import org.understock.planting.Planner;
import org.understock.planting.PlantingPlan;
import org.understock.planting.PlantingQuestion;
import org.understock.planting.Plot;
import org.understock.planting.PollenRule;
import org.understock.site.Goal;
import org.understock.site.Site;

/**
 * Plans of a garden, an acre and five hectares, with 'Fuji' and as few 'Gala' as pollinate it (the
 * dearest part of a plan on large plots).
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 3, time = 4)
@Fork(1)
public class PlanBenchmark {
  @Param({"6x10", "50x80", "200x250"})
  String plot;

  private Planner planner;
  private PlantingQuestion question;

  @Setup
  public void question() {
    planner = Planner.of(Adviser.of(Apples.BOOK).warm());
    double width = Double.parseDouble(plot.substring(0, plot.indexOf('x')));
    double length = Double.parseDouble(plot.substring(plot.indexOf('x') + 1));
    question =
        new PlantingQuestion(
            new Plot(Plot.corners(width, length), List.of(), null, null, null, 0),
            new Layout(
                null, null, null, width > 100 ? 4.0 : null, width > 100 ? 1.2 : null, null, null),
            List.of(
                new PlantingQuestion.Wanted("m-9-t337", "fuji", 1.0),
                new PlantingQuestion.Wanted("m-9-t337", "gala", null)),
            Site.UNKNOWN,
            Goal.UNKNOWN,
            new PollenRule(PollenRule.USUAL_BEE_DISTANCE_M, 0.0),
            PlantingQuestion.USUAL_SPARE_PERCENT);
    System.out.println(planner.plan(question).trees().size() + " trees");
  }

  @Benchmark
  public PlantingPlan plan() {
    return planner.plan(question);
  }
}
