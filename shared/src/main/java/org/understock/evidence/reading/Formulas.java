package org.understock.evidence.reading;

import java.util.regex.Pattern;

/**
 * Keeps spreadsheets from carrying out texts as formulas, without changing a text: what begins like
 * a formula ({@code =}, {@code +}, {@code -}, {@code @}, also in full width, a tab or a line end)
 * is written with an apostrophe before it, and one apostrophe before such a beginning is taken off
 * when read. So every text comes back as it was, whether or not it began with apostrophes itself,
 * and a text typed without one is taken as it stands.
 */
final class Formulas {
  private static final String START = "[=+\\-@\\t\\r\\n\\uFF1D\\uFF0B\\uFF0D\\uFF20]";
  private static final Pattern BARE = Pattern.compile("'*" + START);
  private static final Pattern GUARDED = Pattern.compile("'+" + START);

  private Formulas() {}

  static String guard(String text) {
    return BARE.matcher(text).lookingAt() ? "'" + text : text;
  }

  static String unguard(String field) {
    return GUARDED.matcher(field).lookingAt() ? field.substring(1) : field;
  }
}
