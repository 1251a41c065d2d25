package org.understock.service.curation;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a reviewer decides, all of it or nothing.
 *
 * @param accept ids of proposals that are to count
 * @param reject ids of proposals that are not to
 * @param withdraw ids of accepted records that are to count no longer
 * @param sources ids of sources that are to enter the catalogue by themselves; those that accepted
 *     records need enter with them
 * @param stocks the same for stocks
 * @param varieties the same for varieties
 * @param acceptImport id of an import: all that came with it and still waits is to count, but what
 *     {@code reject} names
 * @param note why
 */
record Review(
    List<String> accept,
    List<String> reject,
    List<String> withdraw,
    List<String> sources,
    List<String> stocks,
    List<String> varieties,
    @Nullable String acceptImport,
    String note) {
  /** Whether the accepted evidence is another one afterwards. */
  boolean changesEvidence() {
    return acceptImport != null
        || !(accept.isEmpty()
            && withdraw.isEmpty()
            && sources.isEmpty()
            && stocks.isEmpty()
            && varieties.isEmpty());
  }
}
