package org.understock.evidence.pooling;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The reference cases: computed with R 4.2.2 and metafor 3.8-1 (the file names the script's model
 * by case), and where a case carries {@code published}, numbers printed by others.
 */
final class PoolingReference {
  private static final JsonNode CASES = read("pooling-cases.json").get("cases");

  private PoolingReference() {}

  static JsonNode read(String name) {
    try (InputStream in = PoolingReference.class.getResourceAsStream(name)) {
      return JsonMapper.shared().readTree(in);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  static JsonNode byId(String id) {
    for (JsonNode c : CASES) if (c.get("id").asString().equals(id)) return c;
    throw new IllegalArgumentException(id);
  }

  static double[] numbers(JsonNode array) {
    double[] out = new double[array.size()];
    for (int i = 0; i < out.length; i++) out[i] = array.get(i).asDouble();
    return out;
  }

  /** A stock-model case as a network, and the names of its stocks. */
  record Table(Network network, Map<String, Integer> stocks, List<Network.Row> rows) {
    int of(String stock) {
      return stocks.get(stock);
    }
  }

  static Table table(JsonNode data) {
    return table(data, "stock", "scion");
  }

  static Table table(JsonNode data, String treatment, String group) {
    Map<String, Integer> sites = new LinkedHashMap<>();
    Map<String, Integer> stocks = new LinkedHashMap<>();
    Map<String, Integer> groups = new LinkedHashMap<>();
    List<Network.Row> rows = new ArrayList<>();
    for (JsonNode row : data) {
      String scion = row.has(group) ? row.get(group).asString() : "";
      int g = index(groups, scion);
      double y = row.has("y") ? row.get("y").asDouble() : row.get("value").asDouble();
      rows.add(
          new Network.Row(
              index(sites, scion + "/" + row.get("site").asString()),
              index(stocks, row.get(treatment).asString()),
              g,
              y,
              row.get("v").asDouble(),
              1));
    }
    return new Table(Network.of(stocks.size(), rows), stocks, rows);
  }

  private static int index(Map<String, Integer> known, String name) {
    known.putIfAbsent(name, known.size());
    return known.get(name);
  }
}
