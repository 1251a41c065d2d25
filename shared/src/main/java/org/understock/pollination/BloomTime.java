package org.understock.pollination;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When a variety blooms among those of its crop.
 *
 * @param day full bloom in days after that of the crop's reference variety, pooled; null when no
 *     days are recorded
 * @param sd standard deviation of that day at a new place; null like the day
 * @param group the most probable group, such as {@code early-mid}; null when none is recorded
 * @param records ids of the records behind both
 */
public record BloomTime(
    @Nullable Double day, @Nullable Double sd, @Nullable String group, List<String> records) {
  /** The five groups, earliest first. */
  public static final List<String> GROUPS =
      List.of("early", "early-mid", "mid", "mid-late", "late");

  /** Shortest usual bloom in days; {@link Bloom} says where it comes from. */
  public static final int SHORT_BLOOM_DAYS = Bloom.SHORT_BLOOM_DAYS;

  /** Days of bloom that two varieties should share. */
  public static final int ENOUGH_DAYS = Bloom.ENOUGH_DAYS;

  public BloomTime {
    records = List.copyOf(records);
  }
}
