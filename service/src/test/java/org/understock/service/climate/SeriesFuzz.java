package org.understock.service.climate;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import org.springframework.mock.web.MockHttpServletRequest;
import org.understock.climate.NightRule;
import org.understock.climate.TemperatureSeries;
import org.understock.service.problem.Problem;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.Problems;
import org.understock.service.series.TemperatureUnit;

/**
 * What must hold of any bytes that are read as a station's file: they become a series of
 * temperatures, or are refused with up to fifty things that are wrong; nothing else is thrown.
 * Entry for a fuzzer guided by coverage.
 */
public final class SeriesFuzz {
  private static final int MOST_TOLD = 50;

  /** No more than a curve through daily extremes on the scale could leave it. */
  private static final double MOST_C = 150;

  private SeriesFuzz() {}

  /** The first byte chooses the unit, {@code 0} or {@code 1}; the others are the file. */
  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    if (input.length == 0) return;
    TemperatureUnit unit = TemperatureUnit.values()[input[0] & 1];
    byte[] file = Arrays.copyOfRange(input, 1, input.length);
    try {
      TemperatureSeries series =
          new SeriesCsv(47, NightRule.CONTINUOUS, unit).read(new ByteArrayInputStream(file));
      if (series.end().isBefore(series.start()))
        throw new AssertionError("it ends before it begins");
      for (LocalDate day : new LocalDate[] {series.start(), series.end()})
        for (int hour = 0; hour < 24; hour++)
          if (Math.abs(series.at(day, hour)) > MOST_C)
            throw new AssertionError(day + ", " + hour + " h: " + series.at(day, hour) + " °C");
    } catch (ProblemException told) {
      Problem problem = Problems.of(told, new MockHttpServletRequest());
      List<ProblemError> errors = problem.errors();
      if (problem.status() < 400 || problem.status() >= 500)
        throw new AssertionError("answered " + problem.status(), told);
      if (errors == null || errors.isEmpty() || errors.size() > MOST_TOLD)
        throw new AssertionError("nothing is told, or too much", told);
      for (ProblemError error : errors)
        if (error.detail() == null || error.detail().isBlank())
          throw new AssertionError("nothing is said", told);
    }
  }
}
