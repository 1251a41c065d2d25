package org.understock.plant;

import java.util.Arrays;
import java.util.List;
import org.understock.trait.Refusal;

/** The crops the service advises on. Peach includes nectarine. */
public enum Crop {
  APPLE("apple", "Apple"),
  EUROPEAN_PEAR("european-pear", "European pear"),
  ASIAN_PEAR("asian-pear", "Asian pear"),
  QUINCE("quince", "Quince"),
  SWEET_CHERRY("sweet-cherry", "Sweet cherry"),
  TART_CHERRY("tart-cherry", "Tart cherry"),
  PEACH("peach", "Peach and nectarine"),
  EUROPEAN_PLUM("european-plum", "European plum"),
  JAPANESE_PLUM("japanese-plum", "Japanese plum"),
  APRICOT("apricot", "Apricot");

  private final String id;
  private final String label;

  Crop(String id, String label) {
    this.id = id;
    this.label = label;
  }

  /** Lower-case slug used in the contract and the evidence files. */
  public String id() {
    return id;
  }

  /** Name for people. */
  public String label() {
    return label;
  }

  /** Name within a sentence: "sweet cherry", "European pear". */
  public String word() {
    return switch (this) {
      case EUROPEAN_PEAR, ASIAN_PEAR, EUROPEAN_PLUM, JAPANESE_PLUM -> label;
      default -> label.toLowerCase(java.util.Locale.ROOT);
    };
  }

  /**
   * @throws Refusal.Unknown when the slug is not a crop
   */
  public static Crop of(String id) {
    for (Crop crop : values()) if (crop.id.equals(id)) return crop;
    throw new Refusal.Unknown("crop", id, ids());
  }

  public static List<String> ids() {
    return Arrays.stream(values()).map(Crop::id).toList();
  }

  @Override
  public String toString() {
    return id;
  }
}
