package org.understock.service.drawing;

/**
 * Colours of all pictures: those of Okabe and Ito (Color Universal Design, 2008), which people with
 * any usual colour vision tell apart. A picture never says anything by colour alone, so that it can
 * be read in black and white.
 */
public final class Palette {
  public static final String BLUE = "#0072B2";
  public static final String SKY = "#56B4E9";
  public static final String GREEN = "#009E73";
  public static final String YELLOW = "#F0E442";
  public static final String ORANGE = "#E69F00";
  public static final String VERMILION = "#D55E00";
  public static final String PURPLE = "#CC79A7";
  public static final String INK = "#222222";
  public static final String GREY = "#5F6368";
  public static final String RULE = "#D0D0D0";
  public static final String PAPER = "#FFFFFF";

  private Palette() {}
}
