package org.understock.service.statement;

import org.jspecify.annotations.Nullable;

/** The form of ids that curators choose, and of texts that may be left out. */
final class Slug {
  static final String FORM = "[a-z0-9]+(-[a-z0-9]+)*";
  static final String TOLD = "must be lower-case letters and digits, joined by hyphens";

  private Slug() {}

  static String text(@Nullable String given) {
    return given == null ? "" : given;
  }

  static @Nullable String absent(String text) {
    return text.isEmpty() ? null : text;
  }
}
