package org.understock.service.pollination;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.service.problem.ProblemException;
import org.understock.trait.Refusal;

/**
 * A request with its spellings read.
 *
 * @param varieties each once, in the order given
 * @param from what may be added; null for all of the catalogue
 */
record Planting(List<Variety> varieties, @Nullable List<Variety> from, int limit) {
  private static final int USUAL_LIMIT = 5;
  private static final int MOST_REFUSALS = 50;

  /**
   * @throws ProblemException naming every spelling that is not known or means several varieties
   */
  static Planting of(PollinationRequest request, Plants plants) {
    Crop crop = request.crop() == null ? null : Crop.of(request.crop());
    List<Refusal> refusals = new ArrayList<>();
    Set<Crop> told = crop == null ? settled(request.varieties(), plants) : EnumSet.of(crop);
    List<Variety> varieties = read("varieties", request.varieties(), plants, crop, told, refusals);
    List<Variety> from =
        request.from() == null ? null : read("from", request.from(), plants, crop, told, refusals);
    if (!refusals.isEmpty())
      throw ProblemException.ofRefusals(
          refusals.subList(0, Math.min(MOST_REFUSALS, refusals.size())), "");
    return new Planting(varieties, from, Objects.requireNonNullElse(request.limit(), USUAL_LIMIT));
  }

  /** Crops of the varieties whose spelling means one alone: they settle what the others mean. */
  private static Set<Crop> settled(List<String> names, Plants plants) {
    Set<Crop> crops = EnumSet.noneOf(Crop.class);
    for (String name : names) {
      List<Variety> meant = plants.meantVarieties(name);
      if (meant.size() == 1) crops.add(meant.get(0).crop());
    }
    return crops;
  }

  private static List<Variety> read(
      String field,
      List<String> names,
      Plants plants,
      @Nullable Crop crop,
      Set<Crop> told,
      List<Refusal> refusals) {
    Set<Variety> read = new LinkedHashSet<>();
    for (int k = 0; k < names.size(); k++) {
      String at = field + "[" + k + "]";
      String name = names.get(k);
      try {
        read.add(
            crop != null ? plants.requireVariety(at, crop, name) : one(at, name, plants, told));
      } catch (Refusal refusal) {
        refusals.add(refusal);
      }
    }
    return List.copyOf(read);
  }

  private static Variety one(String at, String name, Plants plants, Set<Crop> told) {
    List<Variety> meant = plants.meantVarieties(name);
    if (meant.isEmpty()) throw new Refusal.Unknown(at, name, plants.nearestVarieties(name));
    if (meant.size() == 1) return meant.get(0);
    List<Variety> fitting = meant.stream().filter(v -> told.contains(v.crop())).toList();
    if (fitting.size() == 1) return fitting.get(0);
    throw new Refusal.Conflict(
        at,
        "'"
            + name
            + "' is a variety of several crops: "
            + String.join(
                ", ", meant.stream().map(v -> v.id() + " (" + v.crop().label() + ")").toList())
            + "; give the id, or crop");
  }
}
