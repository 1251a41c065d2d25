package org.understock.evidence;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.pooling.TraitPools;
import org.understock.plant.Crop;
import org.understock.plant.Stock;

/** The trait book of one revision: every estimate pooled once, from all crops' records. */
public final class CompiledTraitBook implements TraitBook {
  private final long revision;
  private final Evidence evidence;
  private final Map<Subject, Map<String, Estimate>> estimates;
  private final Map<Subject, List<TraitRecord>> bySubject = new HashMap<>();
  private final Map<String, TraitRecord> byId = new HashMap<>();
  private final Map<String, Grade> grades = new ConcurrentHashMap<>();
  private final Map<String, Map<String, Estimate>> underAnyCrop;
  private final Map<Crop, String> references;
  private final Map<Crop, Advisable> advisable = new EnumMap<>(Crop.class);

  private final TraitPools pools;

  private CompiledTraitBook(long revision, Evidence evidence, @Nullable CompiledTraitBook near) {
    this.revision = revision;
    this.evidence = evidence;
    for (TraitRecord record : evidence.records()) {
      byId.put(record.id(), record);
      bySubject.computeIfAbsent(record.subject(), s -> new ArrayList<>()).add(record);
    }
    bySubject.replaceAll((subject, records) -> List.copyOf(records));
    pools = TraitPools.of(evidence, near == null ? null : near.pools);
    estimates = pools.estimates();
    underAnyCrop = pools.underAnyCrop();
    references = pools.references();
    for (Crop crop : Crop.values()) advisable.put(crop, Advisable.of(evidence, crop));
  }

  /**
   * Pools all traits of all crops. Cost grows with the records, and with the cube of the number of
   * stocks met in the trials of one trait and crop.
   */
  public static CompiledTraitBook compile(long revision, Evidence evidence) {
    return new CompiledTraitBook(revision, evidence, null);
  }

  /**
   * The same book, made with less work where a revision is at hand that differs in little: only the
   * traits in which they differ are pooled anew. Neither changes afterwards.
   */
  public static CompiledTraitBook compile(long revision, Evidence evidence, TraitBook near) {
    return new CompiledTraitBook(
        revision, evidence, near instanceof CompiledTraitBook compiled ? compiled : null);
  }

  @Override
  public long revision() {
    return revision;
  }

  @Override
  public Evidence evidence() {
    return evidence;
  }

  @Override
  public Advisable advisable(Crop crop) {
    return Objects.requireNonNull(advisable.get(crop));
  }

  /**
   * The stock to which a crop's trial means are compared: the one met in most strata. Empty for a
   * crop without trials.
   */
  public Optional<String> reference(Crop crop) {
    return Optional.ofNullable(references.get(crop));
  }

  @Override
  public Optional<Estimate> estimate(Subject subject, String trait) {
    Estimate own = own(subject, trait);
    if (own != null || !(subject instanceof Subject.StockIn in)) return Optional.ofNullable(own);
    List<String> lineage =
        evidence.plants().stock(in.stock()).map(Stock::lineage).orElse(List.of(in.stock()));
    for (String stock : lineage) {
      Estimate here = own(new Subject.StockIn(in.crop(), stock), trait);
      if (here != null) return Optional.of(borrowed(here, stock));
    }
    for (String stock : lineage) {
      Estimate elsewhere = underAnyCrop.getOrDefault(stock, Map.of()).get(trait);
      if (elsewhere != null) return Optional.of(borrowed(elsewhere, stock));
    }
    return Optional.empty();
  }

  private @Nullable Estimate own(Subject subject, String trait) {
    return estimates.getOrDefault(subject, Map.of()).get(trait);
  }

  @Override
  public List<TraitRecord> records(Subject subject) {
    return bySubject.getOrDefault(subject, List.of());
  }

  @Override
  public Optional<TraitRecord> record(String id) {
    return Optional.ofNullable(byId.get(id));
  }

  /** Kept once asked for: every answer names the sources of some hundred records. */
  @Override
  public Grade grade(TraitRecord record) {
    return grades.computeIfAbsent(record.id(), id -> TraitBook.super.grade(record));
  }

  /**
   * The parent's estimate as the clone's: a grade lower, and for sizes and yields wider by what
   * clones of one stock differ.
   */
  private static Estimate borrowed(Estimate from, String parent) {
    Estimate.Support support =
        new Estimate.Support(
            from.support().records(),
            from.support().sources(),
            from.support().grade().lower(),
            Optional.of(parent));
    if (from instanceof Estimate.Ratio r) {
      return new Estimate.Ratio(
          r.reference(),
          r.logMean(),
          Math.hypot(r.standardErrorLog(), TraitPools.CLONE_SD_LOG),
          r.tauLog(),
          r.strata(),
          r.degreesOfFreedom(),
          support);
    }
    if (from instanceof Estimate.NotComparable n)
      return new Estimate.NotComparable(n.reference(), n.strata(), support);
    if (from instanceof Estimate.Quantity q) {
      return new Estimate.Quantity(
          q.unit(),
          q.logMean(),
          Math.hypot(q.standardErrorLog(), TraitPools.CLONE_SD_LOG),
          q.betweenLog(),
          support);
    }
    if (from instanceof Estimate.Interval i)
      return new Estimate.Interval(i.unit(), i.mean(), i.standardError(), i.between(), support);
    if (from instanceof Estimate.Levels l)
      return new Estimate.Levels(l.levels(), l.alpha(), support);
    Estimate.Named named = (Estimate.Named) from;
    return new Estimate.Named(named.votes(), support);
  }
}
