package org.understock.service.reading;

import java.util.List;
import org.understock.evidence.Source;
import org.understock.wording.Words;

/** How a source stands in an answer. */
public final class Cited {
  /** The two sources that stand for no publication; there is one of each, of that id. */
  private static final List<String> UNPUBLISHED = List.of("memory", "common-practice");

  private Cited() {}

  /**
   * The citation; a publication stands as it is printed, whatever the language, and what is none is
   * said in the reader's.
   */
  public static String of(Source source, Words words) {
    return UNPUBLISHED.contains(source.id())
        ? words.say("source." + source.id())
        : source.citation();
  }
}
