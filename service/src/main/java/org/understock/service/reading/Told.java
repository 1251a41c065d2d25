package org.understock.service.reading;

/** Words of the contract that several operations share. */
public final class Told {
  public static final String REVISION = "Read as of this revision; the latest when it is left out.";
  public static final String CURSOR =
      "The `next` of the page before. It pins the walk to that page's revision; filters must stay the same.";
  public static final String LIMIT = "Most items in the page.";
  public static final String CROP = "Only what belongs to this crop.";
  public static final String Q =
      "Any usual spelling of a name, or a part of one; the best match comes first.";

  public static final String PAGE = "50";
  public static final int LARGEST_PAGE = 200;

  private Told() {}
}
