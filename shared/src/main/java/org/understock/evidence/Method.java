package org.understock.evidence;

import java.util.Arrays;
import org.understock.trait.Refusal;

/** How the author of a statement came to know it: the evidence tag of a record. */
public enum Method {
  REPLICATED_MULTI_SITE,
  REPLICATED_SINGLE_SITE,
  EXPERT_RATING,
  BREEDER_STATEMENT,
  GROWER_OBSERVATION,
  COMMON_PRACTICE,
  FROM_MEMORY;

  /** Slug used in the contract, such as {@code replicated-multi-site}. */
  public String id() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }

  /**
   * @throws Refusal.Unknown when the slug is not a method
   */
  public static Method of(String id) {
    for (Method method : values()) if (method.id().equals(id)) return method;
    throw new Refusal.Unknown("method", id, Arrays.stream(values()).map(Method::id).toList());
  }
}
