package org.understock.impact;

import java.util.List;
import org.understock.evidence.Subject;

/**
 * One thing that would be worth knowing better.
 *
 * @param points points of score by which the first places of the kept examples would on average be
 *     better if it were known, added up over the examples
 * @param known what is known of it now, in words
 * @param lookFor what kind of report would tell
 * @param examples those whose first place it may change, the most first
 */
public record Gap(
    Subject subject,
    String name,
    String trait,
    String traitName,
    double points,
    String known,
    String lookFor,
    List<Share> examples) {
  public Gap {
    examples = List.copyOf(examples);
  }

  /**
   * @param points points of score in this example
   * @param wouldChange chance that knowing it puts another pairing first, 0 to 1
   */
  public record Share(ExampleQuestion example, double points, double wouldChange) {}
}
