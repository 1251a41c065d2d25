package org.understock.growth;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.plant.Crop;

/** Reads a stock's quantities off the crop's lines. */
final class StockCompiler {
  /**
   * The full crop comes at least this much later than the first, as a factor; only bites where
   * separate records contradict each other.
   */
  private static final double FULL_AFTER_FIRST = 1.3;

  /**
   * From this fraction of standard on a seedling stock counts as a standard tree (no class of
   * dwarfing or semi-dwarfing stocks reaches it).
   */
  private static final double FULL_SIZED = 0.9;

  private StockCompiler() {}

  static StockGrowth of(
      String stock,
      Size size,
      Crop crop,
      boolean seedling,
      Map<Measure, Curve> curves,
      SupportModel.Estimated support) {
    boolean standard = seedling && size.fraction() >= FULL_SIZED;
    Curve height = curves.get(Measure.HEIGHT);
    Curve time = curves.get(Measure.TIME);
    Part sizePart = new Part(size.value(), 0, size.records(), size.grade(), size.basis());
    Part free = Objects.requireNonNull(height).part(stock, size, standard, 0);
    Part usual = atMost(height.part(stock, size, standard, 1), free);
    Part lowest = atMost(height.part(stock, size, standard, 2), usual);
    Part spread = Objects.requireNonNull(curves.get(Measure.SPREAD)).part(stock, size, standard, 1);
    Part first = Objects.requireNonNull(time).part(stock, size, standard, 0);
    Part full = later(time.part(stock, size, standard, 1), first);
    Part life = Objects.requireNonNull(curves.get(Measure.LIFE)).part(stock, size, standard, 0);
    Part yield = Objects.requireNonNull(curves.get(Measure.YIELD)).part(stock, size, standard, 0);
    List<StockGrowth.Thin> thin = new ArrayList<>();
    note(thin, crop, "size-percent-of-standard", "size", sizePart);
    note(thin, crop, "mature-height", "height", free);
    note(thin, crop, "in-row-spacing", "spread", spread);
    note(thin, crop, "years-to-first-crop", "years to the first crop", first);
    note(thin, crop, "years-to-full-crop", "years to the full crop", full);
    note(thin, crop, "lifespan", "length of life", life);
    note(thin, crop, "mature-yield", "crop of a full-grown tree", yield);
    return new StockGrowth(
        stock,
        sizePart,
        free,
        usual,
        lowest,
        spread,
        first,
        full,
        life,
        yield,
        new StockGrowth.Support(support.need(), support.records()),
        thin);
  }

  /**
   * Statements of several tables may cross over; a tree cut back is never taller than one that is
   * not.
   */
  private static Part atMost(Part part, Part limit) {
    if (part.value().mu() <= limit.value().mu()) return part;
    return new Part(
        new LogNormal(limit.value().mu(), part.value().sigma()),
        part.placeSd(),
        part.records(),
        part.grade(),
        part.basis());
  }

  private static Part later(Part full, Part first) {
    double earliest = first.value().mu() + Math.log(FULL_AFTER_FIRST);
    if (full.value().mu() >= earliest) return full;
    return new Part(
        new LogNormal(earliest, full.value().sigma()),
        full.placeSd(),
        full.records(),
        full.grade(),
        full.basis());
  }

  private static void note(
      List<StockGrowth.Thin> thin, Crop crop, String trait, String quantity, Part part) {
    if (!part.thin()) return;
    String name = crop.word();
    thin.add(
        new StockGrowth.Thin(
            trait,
            "No record gives the "
                + quantity
                + " of this stock, nor enough to tell it from its size; what is usual for "
                + name
                + " is given, with a wide range."));
  }
}
