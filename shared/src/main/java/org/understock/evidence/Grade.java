package org.understock.evidence;

/** How much an estimate can bear, A (most) to D. Computed by a written rule, never typed in. */
public enum Grade {
  A,
  B,
  C,
  D
}
