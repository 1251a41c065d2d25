package org.understock.growth;

import java.util.ArrayList;
import java.util.List;
import org.understock.trait.Refusal;

/**
 * What is to be expected of one pairing at one place.
 *
 * @param freeHeightM height left to grow, in m
 * @param heightM height as kept by the usual pruning, or towards the grower's greatest height as
 *     far as pruning holds it, in m
 * @param lowestHeightM height as low as pruning holds the tree, in m
 * @param spreadM width of the crown as kept, in m
 * @param firstCropYear years from planting to the first crop
 * @param fullCropYear years from planting to the full crop
 * @param lifeYears years that the tree lasts
 * @param matureYieldKg crop of a full-grown tree in a year, in kg; its middle never above what the
 *     tree's ground bears
 * @param inRowM distance in the row, in m
 * @param rowM distance between rows, in m
 * @param support need of support at this place
 */
public record Expectations(
    LogNormal freeHeightM,
    LogNormal heightM,
    LogNormal lowestHeightM,
    LogNormal spreadM,
    LogNormal firstCropYear,
    LogNormal fullCropYear,
    LogNormal lifeYears,
    LogNormal matureYieldKg,
    double inRowM,
    double rowM,
    SupportNeed support) {

  /**
   * Share of the full crop that the first crop makes (judgement: a handful of fruits counts as a
   * first crop).
   */
  static final double FIRST_SHARE = 0.1;

  /**
   * Crops fall from this share of the life on, to a half at its end: from year 18 to year 25 in
   * shaken tart cherry (growingproduce-perry-tart).
   */
  static final double DECLINE_FROM = 0.72;

  /** How fast they fall: the share of the crop lost for a whole life more. */
  static final double DECLINE = 0.5 / (1 - DECLINE_FROM);

  /** Trees per hectare at this spacing, headlands not taken off. */
  public double treesPerHa() {
    return Density.rectangular(rowM, inRowM);
  }

  /**
   * Least distance between rows at which the middle tree leaves the next row's foot its light, in
   * m.
   */
  public double rowForLightM() {
    return heightM.median() / Spacing.HEIGHT_TO_ROW;
  }

  /** Middle yield of a full-grown planting per ground area, in kg/m². */
  public double yieldKgPerM2() {
    return matureYieldKg.median() / (rowM * inRowM);
  }

  /**
   * Middle yield per m³ of canopy, the crown taken as a cone on a circle: how efficiently the
   * tree's room bears.
   */
  public double yieldKgPerCanopyM3() {
    double width = spreadM.median();
    return matureYieldKg.median() / (Math.PI / 12 * width * width * heightM.median());
  }

  /**
   * The crop of one tree year by year, from planting on: nothing before the first crop, a rise to
   * the full crop, a decline at the end of life. The percentiles are of each year by itself.
   *
   * @param years how many years, 1 to 150
   * @throws Refusal.OutOfRange when {@code years} is not
   */
  public List<YearYield> yearlyYield(int years) {
    if (years < 1 || years > 150) throw new Refusal.OutOfRange("years", years, "between 1 and 150");
    double[][] parts =
        TreeYears.of(
            new TreeYears.Course(firstCropYear, fullCropYear, lifeYears, matureYieldKg.sigma()),
            years);
    double kg = matureYieldKg.median();
    List<YearYield> list = new ArrayList<>(years);
    for (int year = 1; year <= years; year++) {
      double[] part = parts[year - 1];
      list.add(new YearYield(year, kg * part[0], kg * part[1], kg * part[2]));
    }
    return list;
  }

  /**
   * The crop of one tree in one year, in kg, for a tree that lies so far from the middle, in
   * standard normal scores.
   *
   * @param year 1 = the season of planting
   * @param start how late it comes into crop
   * @param life how long it lasts
   * @param yield how much it bears when full-grown
   */
  public double cropKg(int year, double start, double life, double yield) {
    return course(start, life, yield).cropKg(year);
  }

  /**
   * The course of one tree's life that lies so far from the middle, in standard normal scores; see
   * {@link #cropKg}.
   */
  public Course course(double start, double life, double yield) {
    return course(
        firstCropYear.at(start),
        fullCropYear.at(start),
        lifeYears.at(life),
        matureYieldKg.at(yield));
  }

  /** A tree that starts late is late throughout. */
  static Course course(double first, double full, double life, double matureYieldKg) {
    return new Course(first, Math.max(first + 1, full), life, matureYieldKg);
  }

  /**
   * How one tree goes through its years.
   *
   * @param firstCropYear year of its first crop
   * @param fullCropYear year of its full crop
   * @param lifeYears years that it lasts
   * @param matureYieldKg its full crop, in kg
   */
  public record Course(
      double firstCropYear, double fullCropYear, double lifeYears, double matureYieldKg) {

    /** Crop in kg; 1 = the season of planting. */
    public double cropKg(int year) {
      return matureYieldKg * share(year, firstCropYear, fullCropYear, lifeYears);
    }

    /** The last season before it is replaced: the whole year nearest to its life's end. */
    public int lastYear() {
      return (int) Math.max(1, Math.rint(lifeYears));
    }
  }

  /** Share of the full crop in a year of the tree's life. */
  static double share(double year, double first, double full, double life) {
    if (year < first - 0.5) return 0;
    double t = (year - first) / (full - first);
    if (t < 0) t = 0;
    else if (t > 1) t = 1;
    double rise = FIRST_SHARE + (1 - FIRST_SHARE) * t * t * (3 - 2 * t);
    double late = year / life - DECLINE_FROM;
    return late <= 0 ? rise : rise * Math.max(0, 1 - 0.5 * late / (1 - DECLINE_FROM));
  }
}
