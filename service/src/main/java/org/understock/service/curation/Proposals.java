package org.understock.service.curation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Names;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.trait.Refusal;

/**
 * The door for what is proposed. Every method is one transaction: what it wrote is there when it
 * returns, with its line in the audit, or nothing is.
 */
@Component
@Transactional
class Proposals {
  private final RecordFile file;
  private final AuditTrail audit;

  Proposals(RecordFile file, AuditTrail audit) {
    this.file = file;
    this.audit = audit;
  }

  /**
   * Files a statement as proposed.
   *
   * @param supersedes id of the accepted record that it is to take the place of
   * @throws ProblemException when something is wrong with it, all faults at once; 409 when the same
   *     statement is proposed or accepted already
   */
  FiledRecord record(RecordCheck.Draft draft, @Nullable String supersedes, Deed deed) {
    Evidence catalogue = file.catalogue();
    TraitRecord made = checked(draft, supersedes, catalogue);
    file.living(Canonical.key(made)).ifPresent(Proposals::refuse);
    TraitRecord record = withFreeId(made);
    file.propose(record, supersedes, catalogue, deed.actor());
    audit.write(deed, "propose", "record " + record.id(), null, Canonical.text(record));
    return file.find(record.id()).orElseThrow();
  }

  /**
   * Gives a proposal another content, under the same id.
   *
   * @param version the version that the caller has seen
   * @throws ProblemException 404 when there is no such record, 412 when it was changed in between,
   *     409 when it was reviewed already or the content is that of another record
   */
  FiledRecord amend(
      String id, long version, RecordCheck.Draft draft, @Nullable String supersedes, Deed deed) {
    FiledRecord old =
        file.lock(List.of(id)).stream().findFirst().orElseThrow(() -> RecordProblems.notFound(id));
    if (old.version() != version) throw RecordProblems.stale(old);
    if (!old.status().equals("proposed"))
      throw RecordProblems.conflict(
          "Record "
              + id
              + " is "
              + old.status()
              + ": its content can't be changed any more. Propose a new"
              + " record that supersedes it.");
    Evidence catalogue = file.catalogue();
    TraitRecord record = checked(draft, supersedes, catalogue);
    file.living(Canonical.key(record))
        .filter(other -> !other.record().id().equals(id))
        .ifPresent(Proposals::refuse);
    file.amend(id, record, supersedes, catalogue, deed.actor());
    audit.write(deed, "amend", "record " + id, null, Canonical.text(record));
    return file.find(id).orElseThrow();
  }

  /**
   * Files a source. It counts from the revision in which a reviewer accepts it, or accepts a record
   * that needs it.
   */
  Source source(Source source, Deed deed) {
    Evidence catalogue = file.catalogue();
    if (catalogue.sources().containsKey(source.id()))
      throw RecordProblems.taken("source", source.id());
    if (source.origin() != null && !catalogue.sources().containsKey(source.origin())) {
      throw ProblemException.ofRefusals(
          List.of(
              new Refusal.Unknown(
                  "origin",
                  source.origin(),
                  Names.closest(
                      source.origin(),
                      catalogue.sources().keySet().stream().sorted().toList(),
                      3))),
          "");
    }
    file.propose(source, deed.actor());
    audit.write(deed, "propose", "source " + source.id(), null, Canonical.text(source));
    return source;
  }

  /** Files a stock, as {@link #source} does a source. */
  Stock stock(Stock stock, Deed deed) {
    Evidence catalogue = file.catalogue();
    if (catalogue.plants().stock(stock.id()).isPresent())
      throw RecordProblems.taken("stock", stock.id());
    List<Refusal> wrong = new ArrayList<>();
    if (stock.cloneOf() != null && catalogue.plants().stock(stock.cloneOf()).isEmpty()) {
      wrong.add(
          new Refusal.Unknown(
              "cloneOf", stock.cloneOf(), catalogue.plants().nearestStocks(stock.cloneOf())));
    }
    wrong.addAll(spellings(stock, catalogue.plants()));
    if (!wrong.isEmpty()) throw ProblemException.ofRefusals(wrong, "");
    file.propose(stock, deed.actor());
    audit.write(deed, "propose", "stock " + stock.id(), null, Canonical.text(stock));
    return stock;
  }

  /** Files a variety, as {@link #source} does a source. */
  Variety variety(Variety variety, Deed deed) {
    Evidence catalogue = file.catalogue();
    if (catalogue.plants().variety(variety.id()).isPresent())
      throw RecordProblems.taken("variety", variety.id());
    List<Refusal> wrong = spellings(variety, catalogue.plants());
    if (!wrong.isEmpty()) throw ProblemException.ofRefusals(wrong, "");
    file.propose(variety, deed.actor());
    audit.write(deed, "propose", "variety " + variety.id(), null, Canonical.text(variety));
    return variety;
  }

  /** What is wrong with a new stock's spellings: no two stocks may share one. */
  static List<Refusal> spellings(Stock stock, Plants plants) {
    List<Refusal> wrong = new ArrayList<>();
    for (String name : names(stock.name(), stock.synonyms())) {
      plants
          .resolveStock(name)
          .ifPresent(
              other ->
                  wrong.add(
                      new Refusal.Conflict(
                          name.equals(stock.name()) ? "name" : "synonyms",
                          "'" + name + "' is a spelling of the stock " + other.id() + " already")));
    }
    return wrong;
  }

  /** What is wrong with a new variety's spellings: no two varieties of a crop may share one. */
  static List<Refusal> spellings(Variety variety, Plants plants) {
    List<Refusal> wrong = new ArrayList<>();
    for (String name : names(variety.name(), variety.synonyms())) {
      plants
          .resolveVariety(variety.crop(), name)
          .ifPresent(
              other ->
                  wrong.add(
                      new Refusal.Conflict(
                          name.equals(variety.name()) ? "name" : "synonyms",
                          "'"
                              + name
                              + "' is a spelling of the variety "
                              + other.id()
                              + " already")));
    }
    return wrong;
  }

  private static List<String> names(String name, List<String> synonyms) {
    List<String> all = new ArrayList<>(List.of(name));
    all.addAll(synonyms);
    return all;
  }

  private TraitRecord checked(
      RecordCheck.Draft draft, @Nullable String supersedes, Evidence catalogue) {
    RecordCheck check =
        new RecordCheck(catalogue.traits(), catalogue.plants(), catalogue.sources());
    List<Refusal> wrong = new ArrayList<>(check.problems(draft));
    if (supersedes != null) superseded(supersedes, draft).ifPresent(wrong::add);
    if (!wrong.isEmpty()) throw ProblemException.ofRefusals(wrong, "");
    return check.make(draft);
  }

  Optional<Refusal> superseded(String id, RecordCheck.Draft draft) {
    FiledRecord old = file.find(id).orElse(null);
    if (old == null) return Optional.of(new Refusal.Unknown("supersedes", id, List.of()));
    if (!old.status().equals("accepted"))
      return Optional.of(
          new Refusal.Conflict(
              "supersedes",
              "record "
                  + id
                  + " is "
                  + old.status()
                  + "; only an accepted record can be"
                  + " superseded"));
    if (!old.record().trait().equals(draft.trait())
        || old.record().subject().crop() != draft.subject().crop()) {
      return Optional.of(
          new Refusal.Conflict(
              "supersedes",
              "record "
                  + id
                  + " is about "
                  + old.record().trait()
                  + " in "
                  + old.record().subject().crop()
                  + "; a record takes the place of one about the same trait in the same crop"));
    }
    return Optional.empty();
  }

  /** An id is made of the content, unless an older record bears it. */
  private TraitRecord withFreeId(TraitRecord made) {
    String id = made.id();
    for (int occurrence = 2; file.idTaken(id); occurrence++) id = Canonical.id(made, occurrence);
    return new TraitRecord(
        id,
        made.subject(),
        made.trait(),
        made.value(),
        made.method(),
        made.source(),
        made.locator(),
        made.context(),
        made.note());
  }

  private static void refuse(FiledRecord same) {
    throw ProblemException.of(
        ProblemType.CONFLICT,
        "The same statement is " + same.status() + " already, as " + same.record().id() + ".",
        List.of(
            new ProblemError(
                null,
                null,
                "says the same as record " + same.record().id(),
                null,
                null,
                List.of(same.record().id()))));
  }
}
