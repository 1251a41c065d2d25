package org.understock.evidence.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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
 * <p>A statement about a class of stocks ("quince") becomes one record of the class and one of each
 * stock that belongs to it, except where the same file says something of that stock itself for the
 * same variety: the particular goes before the general. A row about virus-infected scion wood is no
 * graft verdict; it becomes a rating of the stock's {@code latent-virus} trait.
 *
 * <p>A row that gives its {@code reach} (named, all, most, some) is taken as it stands: its words
 * are not read for the reach, and nothing is said of the members of a class. So exported records
 * come back one by one.
 */
final class Verdicts implements Statements {
  static final List<String> COLUMNS =
      List.of("source_id", "crop", "stock", "variety", "verdict", "interstem", "locator", "note");
  static final List<String> OPTIONAL = Statements.optional(List.of("method", "reach"), COLUMNS);

  private static final Pattern INFECTED = Pattern.compile("\\binfected with\\b");
  private static final Pattern ALL = Pattern.compile("^(all|any)\\b");
  private static final Pattern MOST = Pattern.compile("^most\\b|\\bin general$");
  private static final Pattern SOME =
      Pattern.compile("^(several|some|\\d+)\\b|\\bmean of\\b|^most nectarine\\b");

  private final Catalogue catalogue;
  private final Places particular = new Places();

  Verdicts(Catalogue catalogue) {
    this.catalogue = catalogue;
  }

  @Override
  public List<String> columns() {
    return COLUMNS;
  }

  @Override
  public List<String> optionalColumns() {
    return OPTIONAL;
  }

  @Override
  public boolean surveys() {
    return true;
  }

  @Override
  public void survey(Row row) {
    catalogue
        .plants()
        .resolveStock(row.text("stock"))
        .ifPresent(
            stock -> {
              if (row.text("crop").equals("plum") || Crop.ids().contains(row.text("crop"))) {
                for (Crop crop : Statements.crops(row))
                  particular.put(key(crop, stock.id(), row), 1);
              }
            });
  }

  @Override
  public List<RecordCheck.Draft> drafts(Row row) {
    String stock = Statements.stock(catalogue, row, "stock");
    Method method = Statements.method(catalogue, row);
    List<RecordCheck.Draft> drafts = new ArrayList<>();
    for (Crop crop : Statements.crops(row)) {
      if (!row.text("reach").isEmpty()) {
        drafts.add(verdict(row, crop, stock, method, row.text("note")));
        continue;
      }
      if (INFECTED.matcher(row.text("variety")).find()) {
        drafts.add(
            new RecordCheck.Draft(
                new Subject.StockIn(crop, stock),
                "latent-virus",
                new Value.Level("very-susceptible"),
                method,
                row.required("source_id"),
                row.text("locator"),
                withoutInterstem(row),
                row.text("note")));
        continue;
      }
      drafts.add(verdict(row, crop, stock, method, row.text("note")));
      for (String member : catalogue.groups().getOrDefault(stock, List.of())) {
        if (particular.get(key(crop, member, row)) != Places.NONE) continue;
        String said = "said of the class " + row.text("stock");
        drafts.add(
            verdict(
                row,
                crop,
                member,
                method,
                row.text("note").isEmpty() ? said : row.text("note") + "; " + said));
      }
    }
    return drafts;
  }

  private RecordCheck.Draft verdict(Row row, Crop crop, String stock, Method method, String note) {
    String said = row.text("reach");
    Reach reach =
        said.isEmpty()
            ? reach(row.required("variety"))
            : CatalogueRows.word("reach", said, Reach.class);
    if (!said.isEmpty() && reach != Reach.NAMED && !row.text("variety").isEmpty()) {
      throw new Refusal.Conflict(
          "variety", "a statement of reach " + said + " names no variety; leave it empty");
    }
    String variety = reach == Reach.NAMED ? Statements.variety(catalogue, crop, row) : null;
    Context context = ContextColumns.of(row);
    return new RecordCheck.Draft(
        new Subject.Pairing(crop, stock, variety, reach),
        "compatibility",
        new Value.Level(row.required("verdict")),
        method,
        row.required("source_id"),
        row.text("locator"),
        context,
        note);
  }

  /**
   * The statement is of the stock alone; what the row says of an interstem belongs to no rating.
   */
  private static Context withoutInterstem(Row row) {
    Context c = ContextColumns.of(row);
    return new Context(
        c.trial(),
        c.site(),
        c.scion(),
        c.plantedYear(),
        c.measuredYear(),
        c.trees(),
        c.spread(),
        null,
        c.ageYears(),
        c.relativeTo());
  }

  /**
   * How many varieties words such as "most prune varieties" mean; "in general" leaves room for
   * exceptions, so it means most.
   */
  static Reach reach(String words) {
    String text = words.toLowerCase(Locale.ROOT);
    if (SOME.matcher(text).find()) return Reach.SOME;
    if (ALL.matcher(text).find()) return Reach.ALL;
    return MOST.matcher(text).find() ? Reach.MOST : Reach.NAMED;
  }

  /** Crop, stock and the variety meant, by whichever spelling. */
  private String key(Crop crop, String stock, Row row) {
    String printed = row.text("variety");
    boolean named =
        row.text("reach").isEmpty()
            ? reach(printed) == Reach.NAMED
            : row.text("reach").equals("named");
    if (!named) return crop.id() + '|' + stock + "|at large";
    return crop.id()
        + '|'
        + stock
        + '|'
        + catalogue.plants().resolveVariety(crop, printed).map(Variety::id).orElse(printed);
  }
}
