package org.understock.service.problem;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tools.jackson.core.JacksonException;

/** Writes places in a body as JSON Pointers in URI fragment form (RFC 6901, section 6). */
final class Pointers {
  private static final Pattern STEP = Pattern.compile("([^.\\[\\]]+)|\\[([^\\]]*)\\]");
  private static final String UNESCAPED = "-._~!$&'()*+,;=:@";

  private Pointers() {}

  /**
   * From a camelCase path with indices or keys in brackets: {@code candidates.stocks[2]} becomes
   * {@code #/candidates/stocks/2}.
   */
  static String ofPath(String path) {
    StringBuilder pointer = new StringBuilder("#");
    Matcher step = STEP.matcher(path);
    while (step.find()) append(pointer, step.group(1) != null ? step.group(1) : step.group(2));
    return pointer.toString();
  }

  static String of(List<JacksonException.Reference> path) {
    StringBuilder pointer = new StringBuilder("#");
    for (JacksonException.Reference step : path) {
      append(
          pointer,
          step.getPropertyName() != null
              ? step.getPropertyName()
              : Integer.toString(step.getIndex()));
    }
    return pointer.toString();
  }

  /** From a plain pointer, which starts with a slash or is empty. */
  static String ofPointer(String plain) {
    StringBuilder pointer = new StringBuilder("#");
    for (String step : plain.isEmpty() ? new String[0] : plain.substring(1).split("/", -1)) {
      append(pointer, step.replace("~1", "/").replace("~0", "~"));
    }
    return pointer.toString();
  }

  private static void append(StringBuilder pointer, String step) {
    pointer.append('/');
    for (byte b :
        Texts.cut(step, 80)
            .replace("~", "~0")
            .replace("/", "~1")
            .getBytes(StandardCharsets.UTF_8)) {
      char c = (char) (b & 0xFF);
      boolean plain = c < 128 && (Character.isLetterOrDigit(c) || UNESCAPED.indexOf(c) >= 0);
      if (plain) pointer.append(c);
      else pointer.append(String.format("%%%02X", (int) c));
    }
  }
}
