package org.understock.service.card;

import org.understock.site.Word;

/** Sizes of paper (ISO 216; ANSI/ASME Y14.1). */
enum Paper implements Word {
  A4("A4", 210, 297),
  LETTER("letter", 215.9, 279.4);

  /** What style sheets call it. */
  final String css;

  final double widthMm;
  final double heightMm;

  Paper(String css, double widthMm, double heightMm) {
    this.css = css;
    this.widthMm = widthMm;
    this.heightMm = heightMm;
  }
}
