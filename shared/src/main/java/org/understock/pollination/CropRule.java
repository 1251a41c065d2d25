package org.understock.pollination;

import java.util.List;
import org.understock.plant.Crop;
import org.understock.wording.Sentence;

/**
 * What holds for a crop when nothing is known of the variety. A record about the variety always
 * wins over this table.
 *
 * @param diploidSRule whether pairs of varieties follow {@link SRule}. Not so for tart cherry
 *     (tetraploid: pollen works when it carries two non-functional haplotypes, source
 *     hauck-2006-sour-cherry) and European plum (hexaploid); peach and quince know no
 *     incompatibility between varieties
 * @param anyPartner true when any other variety of the crop with good pollen will do
 * @param need the default need for a partner
 * @param chancePartnerNeeded chance that a variety of the crop needs a partner
 * @param sources ids of the sources; {@code memory} where none was seen
 */
record CropRule(
    boolean diploidSRule,
    boolean anyPartner,
    PollenNeed need,
    double chancePartnerNeeded,
    List<String> sources) {

  /** Why, for people: a clause. */
  static Sentence text(Crop crop) {
    return Sentence.of("pollination.rule." + crop.id());
  }

  /*
   * Chances from counts: sweet cherry 1 - 91/1483 (schuster-2020-cherry-s), apricot 45/92 (herrera-2018-apricot), European plum 5/18
   * (nikolic-2010-plum), peach 1/28 (usu-intermountain-peach and aces-peach-varieties name 27 self-fertile ones and one exception). The
   * others are readings of words ("needed", "most", "in general") and are judgements: they say nothing finer than likely or unlikely.
   */
  static CropRule of(Crop crop) {
    return switch (crop) {
      case APPLE ->
          new CropRule(
              true,
              false,
              PollenNeed.NEEDS_ONE,
              0.9,
              List.of("wsu-pollination", "niab-apple-pollinators"));
      case EUROPEAN_PEAR, ASIAN_PEAR ->
          new CropRule(true, false, PollenNeed.NEEDS_ONE, 0.85, List.of("wsu-pear-pollination"));
      case SWEET_CHERRY ->
          new CropRule(
              true,
              false,
              PollenNeed.NEEDS_ONE,
              1 - 91 / 1483.0,
              List.of("osu-cherry-chart", "schuster-2020-cherry-s"));
      case JAPANESE_PLUM ->
          new CropRule(
              true, false, PollenNeed.NEEDS_ONE, 0.8, List.of("wsu-pollination", "guerra-plum-s"));
      case APRICOT ->
          new CropRule(true, false, PollenNeed.UNKNOWN, 45 / 92.0, List.of("herrera-2018-apricot"));
      case EUROPEAN_PLUM ->
          new CropRule(
              false,
              false,
              PollenNeed.SELF_FERTILE,
              5 / 18.0,
              List.of("wsu-pollination", "nikolic-2010-plum"));
      case TART_CHERRY ->
          new CropRule(
              false,
              false,
              PollenNeed.SELF_FERTILE,
              0.15,
              List.of("umn-stone-fruit", "lansari-1990-sour-cherry"));
      case PEACH ->
          new CropRule(
              false,
              true,
              PollenNeed.SELF_FERTILE,
              1 / 28.0,
              List.of("bc-homegarden-pollination", "usu-intermountain-peach"));
      case QUINCE ->
          new CropRule(false, true, PollenNeed.PARTLY, 0.3, List.of("memory", "cornell-quince"));
    };
  }

  /**
   * Whether pollen of one crop can fertilise another at all. European and Asian pears can
   * (wsu-pear-pollination). European and Japanese plum cannot (hexaploid and diploid; from memory,
   * and advice lists always stay inside the kind, usu-boxelder-plum); sweet and tart cherry are
   * kept apart (ploidy and bloom differ; from memory).
   */
  static boolean canCross(Crop a, Crop b) {
    return a == b || isPear(a) && isPear(b);
  }

  private static boolean isPear(Crop crop) {
    return crop == Crop.EUROPEAN_PEAR || crop == Crop.ASIAN_PEAR;
  }
}
