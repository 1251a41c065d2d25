package org.understock.evidence.reading;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.understock.evidence.Context;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Subject;
import org.understock.evidence.Subject.Pairing.Reach;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;
import org.understock.trait.Value;

/**
 * {@code compatibility.csv}: verdict of a stock under a variety or under many.
 *
 * <p>A statement about a class of stocks ("quince") becomes one record of the class and one of each stock that belongs to it, except where the same
 * file says something of that stock itself for the same variety: the particular goes before the general. A row about virus-infected scion wood is no
 * graft verdict; it becomes a rating of the stock's {@code latent-virus} trait.
 */
final class Verdicts implements Statements {
  private static final Pattern INFECTED = Pattern.compile("\\binfected with\\b");
  private static final Pattern ALL = Pattern.compile("^(all|any)\\b");
  private static final Pattern MOST = Pattern.compile("^most\\b|\\bin general$");
  private static final Pattern SOME = Pattern.compile("^(several|some|\\d+)\\b|\\bmean of\\b|^most nectarine\\b");

  private final Catalogue catalogue;
  private final Set<String> particular = new HashSet<>();

  Verdicts(Catalogue catalogue) {
    this.catalogue = catalogue;
  }

  @Override
  public List<String> columns() {
    return List.of("source_id", "crop", "stock", "variety", "verdict", "interstem", "locator", "note");
  }

  @Override
  public List<String> optionalColumns() {
    return List.of("method");
  }

  @Override
  public void survey(List<Row> rows) {
    particular.clear();
    for (Row row : rows) {
      catalogue.plants().resolveStock(row.text("stock")).ifPresent(stock -> {
        if (row.text("crop").equals("plum") || Crop.ids().contains(row.text("crop"))) {
          for (Crop crop : Statements.crops(row)) particular.add(key(crop, stock.id(), row));
        }
      });
    }
  }

  @Override
  public List<RecordCheck.Draft> drafts(Row row) {
    String stock = Statements.stock(catalogue, row, "stock");
    Method method = Statements.method(catalogue, row);
    List<RecordCheck.Draft> drafts = new ArrayList<>();
    for (Crop crop : Statements.crops(row)) {
      if (INFECTED.matcher(row.text("variety")).find()) {
        drafts.add(new RecordCheck.Draft(new Subject.StockIn(crop, stock), "latent-virus", new Value.Level("very-susceptible"), method,
            row.required("source_id"), row.text("locator"), Context.NONE, row.text("note")));
        continue;
      }
      drafts.add(verdict(row, crop, stock, method, row.text("note")));
      for (String member : catalogue.groups().getOrDefault(stock, List.of())) {
        if (particular.contains(key(crop, member, row))) continue;
        String said = "said of the class " + row.text("stock");
        drafts.add(verdict(row, crop, member, method, row.text("note").isEmpty() ? said : row.text("note") + "; " + said));
      }
    }
    return drafts;
  }

  private RecordCheck.Draft verdict(Row row, Crop crop, String stock, Method method, String note) {
    Reach reach = reach(row.required("variety"));
    String variety = reach == Reach.NAMED ? variety(crop, row) : null;
    Context context = row.optional("interstem") == null ? Context.NONE
        : new Context(null, null, null, null, null, null, null, row.optional("interstem"), null, null);
    return new RecordCheck.Draft(new Subject.Pairing(crop, stock, variety, reach), "compatibility", new Value.Level(row.required("verdict")), method,
        row.required("source_id"), row.text("locator"), context, note);
  }

  private String variety(Crop crop, Row row) {
    String printed = row.required("variety");
    Variety variety = catalogue.plants().resolveVariety(crop, printed).orElse(null);
    if (variety == null) throw new Refusal.Unknown("variety", printed, catalogue.plants().nearestVarieties(printed));
    return variety.id();
  }

  /** How many varieties words such as "most prune varieties" mean; "in general" leaves room for exceptions, so it means most. */
  static Reach reach(String words) {
    String text = words.toLowerCase(Locale.ROOT);
    if (SOME.matcher(text).find()) return Reach.SOME;
    if (ALL.matcher(text).find()) return Reach.ALL;
    return MOST.matcher(text).find() ? Reach.MOST : Reach.NAMED;
  }

  /** Crop, stock and the variety meant, by whichever spelling. */
  private String key(Crop crop, String stock, Row row) {
    String printed = row.text("variety");
    if (reach(printed) != Reach.NAMED) return crop.id() + '|' + stock + "|at large";
    return crop.id() + '|' + stock + '|' + catalogue.plants().resolveVariety(crop, printed).map(Variety::id).orElse(printed);
  }
}
