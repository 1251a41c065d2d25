package org.understock.evidence;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.trait.PlainText;
import org.understock.trait.Refusal;

/**
 * Where a record comes from.
 *
 * @param kind one of {@link #KINDS}; {@code memory} and {@code common-practice} stand for no
 *     publication and are one source each, of that id
 * @param year as printed, such as {@code 2019} or {@code 2014-15}; null when the source has no date
 * @param origin id of the source this one restates, or null: sources of one origin count as one
 *     voice when ratings are pooled
 */
public record Source(
    String id,
    String kind,
    String title,
    String authorsOrBody,
    @Nullable String year,
    String publication,
    @Nullable String doiOrIsbn,
    @Nullable String url,
    String note,
    @Nullable String origin) {

  /** The kinds of sources. */
  public static final List<String> KINDS =
      List.of(
          "peer-reviewed-trial",
          "peer-reviewed-review",
          "extension-bulletin",
          "breeder-release",
          "handbook",
          "dataset",
          "common-practice",
          "memory");

  private static final int LONGEST = 2000;

  public Source {
    if (!id.matches("[a-z0-9]+(-[a-z0-9]+)*"))
      throw new Refusal.OutOfRange(
          "source_id", "'" + id + "'", "lower-case letters and digits, joined by hyphens");
    if (!KINDS.contains(kind)) throw new Refusal.Unknown("kind", kind, KINDS);
    PlainText.check("title", title, LONGEST);
    PlainText.check("authorsOrBody", authorsOrBody, LONGEST);
    PlainText.check("publication", publication, LONGEST);
    PlainText.check("note", note, LONGEST);
    if (doiOrIsbn != null) PlainText.check("doiOrIsbn", doiOrIsbn, LONGEST);
    if (doiOrIsbn != null && doiOrIsbn.isEmpty())
      throw new Refusal.OutOfRange("doiOrIsbn", "empty", "given or left out");
    if (url != null) PlainText.check("url", url, LONGEST);
    if (title.isBlank()) throw new Refusal.OutOfRange("title", "empty", "given");
    if (year != null && !year.matches("\\d{4}([-/]\\d{2,4})?"))
      throw new Refusal.OutOfRange("year", "'" + year + "'", "a year such as 2019 or 2014-15");
    if (url != null && !url.matches("https?://\\S+"))
      throw new Refusal.OutOfRange("url", "'" + url + "'", "an http or https address");
    if (id.equals(origin))
      throw new Refusal.Conflict("origin", "source " + id + " can't restate itself");
  }

  /** Author (body), year, title, publication: one line for people. */
  public String citation() {
    StringBuilder text = new StringBuilder(authorsOrBody);
    if (year != null) text.append(text.isEmpty() ? "(" : " (").append(year).append(')');
    text.append(text.isEmpty() ? "" : ": ").append(title);
    if (!publication.isEmpty()) text.append(". ").append(publication);
    if (doiOrIsbn != null) text.append(". ").append(doiOrIsbn);
    return text.toString();
  }
}
