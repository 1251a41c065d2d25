package org.understock.plant;

import java.util.List;

/**
 * A fruit variety (scion cultivar).
 *
 * @param id lower-case slug, unique over all crops ({@code cripps-pink}, {@code
 *     sunrise-european-pear})
 * @param crop the crop it belongs to
 * @param name cultivar denomination
 * @param synonyms other spellings and trade designations; search only
 */
public record Variety(String id, Crop crop, String name, List<String> synonyms) {
  public Variety {
    synonyms = List.copyOf(synonyms);
    Names.check(id, name, synonyms);
  }
}
