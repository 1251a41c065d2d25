package org.understock.impact;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.advice.Adviser;
import org.understock.evidence.Estimate;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Trait.SubjectKind;

/**
 * Which crops' answers may differ between two books.
 *
 * <p>An answer on a crop is made from: the crop's stocks and varieties; the records about them
 * (compatibility, pollination, who is advised unasked) and their sources (whose voice a record is);
 * the estimates of their traits, whether their own, borrowed from a parent or from what a root does
 * under another crop, and pooled with a variance carried over from another crop or not; and the
 * crop's growth, whose lines lean on all crops. All of it is compared, bit for bit. When nothing
 * differs, neither does the answer, and it need not be asked for again.
 */
final class Touched {
  private final Adviser before;
  private final Adviser after;
  private final boolean otherTraits;
  private final Map<Crop, Boolean> known = new EnumMap<>(Crop.class);

  Touched(Adviser before, Adviser after) {
    this.before = before;
    this.after = after;
    otherTraits = !before.book().traits().all().equals(after.book().traits().all());
  }

  boolean crop(Crop crop) {
    return known.computeIfAbsent(crop, this::differs);
  }

  private boolean differs(Crop crop) {
    TraitBook old = before.book();
    TraitBook now = after.book();
    return otherTraits
        || !stocks(old, crop).equals(stocks(now, crop))
        || !varieties(old, crop).equals(varieties(now, crop))
        || !records(old, crop).equals(records(now, crop))
        || !sources(old, crop).equals(sources(now, crop))
        || estimatesDiffer(old, now, crop)
        || !before.growsAlike(after, crop);
  }

  private static List<Stock> stocks(TraitBook book, Crop crop) {
    return book.plants().stocks().stream().filter(stock -> stock.crops().contains(crop)).toList();
  }

  private static List<Variety> varieties(TraitBook book, Crop crop) {
    return book.plants().varieties().stream().filter(variety -> variety.crop() == crop).toList();
  }

  private static List<TraitRecord> records(TraitBook book, Crop crop) {
    return book.evidence().records().stream()
        .filter(record -> record.subject().crop() == crop)
        .toList();
  }

  private static List<Source> sources(TraitBook book, Crop crop) {
    return records(book, crop).stream()
        .map(TraitRecord::source)
        .distinct()
        .map(id -> Objects.requireNonNull(book.evidence().sources().get(id)))
        .toList();
  }

  private static boolean estimatesDiffer(TraitBook old, TraitBook now, Crop crop) {
    for (Trait trait : now.traits().all()) {
      if (trait.subjects().contains(SubjectKind.STOCK)) {
        for (Stock stock : stocks(now, crop))
          if (differ(old, now, new Subject.StockIn(crop, stock.id()), trait)) return true;
      }
      if (trait.subjects().contains(SubjectKind.VARIETY)) {
        for (Variety variety : varieties(now, crop))
          if (differ(old, now, new Subject.OfVariety(crop, variety.id()), trait)) return true;
      }
    }
    return false;
  }

  private static boolean differ(TraitBook old, TraitBook now, Subject subject, Trait trait) {
    Estimate was = old.estimate(subject, trait.id()).orElse(null);
    Estimate is = now.estimate(subject, trait.id()).orElse(null);
    return was == null ? is != null : is == null || !Estimates.same(was, is);
  }
}
