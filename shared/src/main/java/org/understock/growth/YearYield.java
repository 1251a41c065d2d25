package org.understock.growth;

/**
 * Crop of one tree in one year after planting, in kg: 10th, 50th and 90th percentile over trees and
 * places.
 *
 * @param year 1 = the season of planting
 */
public record YearYield(int year, double low, double likely, double high) {}
