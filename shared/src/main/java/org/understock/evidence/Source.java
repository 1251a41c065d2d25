package org.understock.evidence;

import org.jspecify.annotations.Nullable;

/**
 * Where a record comes from.
 *
 * @param kind {@code peer-reviewed-trial}, {@code peer-reviewed-review}, {@code extension-bulletin}, {@code breeder-release}, {@code handbook},
 *     {@code dataset}, {@code memory}
 * @param origin id of the source this one restates, or null: sources of one origin count as one voice when ratings are pooled
 */
public record Source(
    String id, String kind, String title, String authorsOrBody, @Nullable String year, String publication, @Nullable String doiOrIsbn,
    @Nullable String url, String note, @Nullable String origin) {

  /** Author (body), year, title, publication: one line for people. */
  public String citation() {
    StringBuilder text = new StringBuilder(authorsOrBody);
    if (year != null) text.append(" (").append(year).append(')');
    text.append(": ").append(title);
    if (!publication.isEmpty()) text.append(". ").append(publication);
    if (doiOrIsbn != null) text.append(". ").append(doiOrIsbn);
    return text.toString();
  }
}
