package org.understock.wording;

/** Something to be said, before it is known in which language. */
@FunctionalInterface
public interface Sentence {
  String in(Words words);

  /**
   * @param key of the sentence in the files of words
   * @param named names and values in turn, as {@link Words#say} takes them
   */
  static Sentence of(String key, Object... named) {
    return words -> words.say(key, named);
  }
}
