package org.understock.service.problem;

/** Makes texts that came from outside fit to be sent back. */
final class Texts {
  private Texts() {}

  /** Unpaired surrogates, which UTF-8 can't carry, and control characters become U+FFFD. */
  static String printable(String text) {
    StringBuilder out = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            c ->
                out.appendCodePoint(
                    Character.getType(c) == Character.SURROGATE
                            || Character.isISOControl(c) && c != '\n'
                        ? 0xFFFD
                        : c));
    return out.toString();
  }

  /** At most so many characters, an ellipsis at the end when something was cut. */
  static String cut(String text, int most) {
    return text.length() <= most ? text : text.substring(0, most - 1) + "…";
  }
}
