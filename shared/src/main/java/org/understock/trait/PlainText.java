package org.understock.trait;

/**
 * What a text must be to be kept: no white space around it, no control characters but tabs and line
 * ends, no half characters, not too long. A text that keeps to this can be written to a file and a
 * database and read back unchanged.
 */
public final class PlainText {
  private PlainText() {}

  /**
   * @throws Refusal.OutOfRange naming what is wrong with the text and where
   */
  public static void check(String field, String text, int longest) {
    if (text.length() > longest)
      throw new Refusal.OutOfRange(field, text.length() + " characters", "at most " + longest);
    int at = misfit(text);
    if (at >= 0)
      throw new Refusal.OutOfRange(field, "not plain text", "without the " + placed(text, at));
    if (!text.strip().equals(text)) {
      throw new Refusal.OutOfRange(
          field,
          "'" + text.substring(0, Math.min(text.length(), 40)) + "'",
          "without white space before or after it");
    }
  }

  /** Index of the first character that no text may hold, or -1. */
  public static int misfit(String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean control = c < ' ' && c != '\t' && c != '\n' && c != '\r' || c == 0x7F;
      if (control || c == '\uFFFD' || isHalf(text, i)) return i;
    }
    return -1;
  }

  /**
   * Index of the first character that a file in UTF-8 or a database can't hold, or -1: half of a
   * surrogate pair, or U+0000.
   */
  public static int unkeepable(String text) {
    for (int i = 0; i < text.length(); i++) if (text.charAt(i) == 0 || isHalf(text, i)) return i;
    return -1;
  }

  private static boolean isHalf(String text, int at) {
    char c = text.charAt(at);
    if (Character.isHighSurrogate(c))
      return at + 1 == text.length() || !Character.isLowSurrogate(text.charAt(at + 1));
    return Character.isLowSurrogate(c)
        && (at == 0 || !Character.isHighSurrogate(text.charAt(at - 1)));
  }

  /** A misfit and where it stands: "control character U+0000 at character 1". */
  public static String placed(String text, int at) {
    return word(text.charAt(at)) + " at character " + (at + 1);
  }

  /** What to call a misfit. */
  public static String word(char misfit) {
    String code = String.format("U+%04X", (int) misfit);
    if (misfit == '\uFFFD')
      return "replacement character " + code + " (a letter was lost in a conversion)";
    return (Character.isSurrogate(misfit) ? "half character " : "control character ") + code;
  }
}
