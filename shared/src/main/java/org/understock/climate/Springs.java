package org.understock.climate;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is known of a place's springs; either part may be missing.
 *
 * @param measured winters of the series that was measured there, or null
 * @param bloom when varieties, of any crop, bloom there
 */
public record Springs(@Nullable Winters measured, List<ToldBloom> bloom) {
  public static final Springs UNKNOWN = new Springs(null, List.of());

  public Springs {
    bloom = List.copyOf(bloom);
  }
}
