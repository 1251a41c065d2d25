package org.understock.service.card;

import org.understock.site.Word;

/** What the page holds. */
enum Sheet implements Word {
  CARD,
  TAGS
}
