package org.understock.service.catalogue;

/** Words of the contract that several operations share. */
final class Told {
  static final String REVISION = "Read as of this revision; the latest when it is left out.";
  static final String CURSOR = "The `next` of the page before. It pins the walk to that page's revision; filters must stay the same.";
  static final String LIMIT = "Most items in the page.";
  static final String CROP = "Only what belongs to this crop.";
  static final String Q = "Any usual spelling of a name, or a part of one; the best match comes first.";

  static final String PAGE = "50";
  static final int LARGEST_PAGE = 200;

  private Told() {}
}
