package org.understock.wording;

import java.util.concurrent.atomic.AtomicReferenceArray;

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

  /**
   * A sentence about what does not change: told once in each language and then remembered. For many
   * threads; two that ask first at one time both tell it, and tell the same.
   */
  static Sentence kept(Sentence sentence) {
    AtomicReferenceArray<String> told = new AtomicReferenceArray<>(Language.values().length);
    return words -> {
      int language = words.language().ordinal();
      String text = told.get(language);
      if (text == null) {
        text = sentence.in(words);
        told.set(language, text);
      }
      return text;
    };
  }
}
