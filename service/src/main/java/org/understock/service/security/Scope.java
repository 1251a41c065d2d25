package org.understock.service.security;

import java.util.Arrays;
import java.util.Optional;

/**
 * What a token permits. No scope implies another: who may review can't thereby propose, and an
 * administrator can do neither unless the token says so. Four eyes are worth something only while
 * one token doesn't silently carry both.
 */
public enum Scope {
  /**
   * Add sources, stocks, varieties and records, amend proposed ones, import, and see what a
   * proposal would change.
   */
  PROPOSE("evidence:propose"),
  /** Accept, reject and withdraw records, and see before what that would change; read the audit. */
  REVIEW("evidence:review"),
  /** Read the audit and, where the operator exposes them, the management endpoints. */
  ADMIN("evidence:admin");

  private final String word;

  Scope(String word) {
    this.word = word;
  }

  /** The scope as it stands in a token's {@code scope} or {@code scp} claim. */
  public String word() {
    return word;
  }

  /** What the framework makes of the claim. */
  String authority() {
    return "SCOPE_" + word;
  }

  static Optional<Scope> ofAuthority(String authority) {
    return Arrays.stream(values()).filter(s -> s.authority().equals(authority)).findFirst();
  }
}
