package org.understock.trait;

import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The known traits by id, in the order of their ids. */
public final class Traits {
  private final Map<String, Trait> byId = new LinkedHashMap<>();

  public Traits(Collection<Trait> traits) {
    traits.stream().sorted(Comparator.comparing(Trait::id)).forEach(t -> byId.put(t.id(), t));
    if (byId.size() != traits.size()) throw new Refusal.Conflict("id", "a trait id is given twice");
  }

  public Optional<Trait> find(String id) {
    return Optional.ofNullable(byId.get(id));
  }

  /**
   * @throws Refusal.Unknown when there is no such trait
   */
  public Trait get(String id) {
    Trait trait = byId.get(id);
    if (trait == null) throw new Refusal.Unknown("trait", id, List.of());
    return trait;
  }

  public List<Trait> all() {
    return List.copyOf(byId.values());
  }
}
