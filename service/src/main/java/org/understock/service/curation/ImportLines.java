package org.understock.service.curation;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.springframework.stereotype.Component;
import org.understock.evidence.Evidence;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.EvidenceFile;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.plant.Stock;
import org.understock.service.platform.Lines;
import org.understock.service.problem.JsonBodies;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.statement.RecordBody;
import org.understock.service.statement.SourceBody;
import org.understock.service.statement.StockBody;
import org.understock.service.statement.VarietyBody;
import org.understock.trait.Refusal;

/** Reads NDJSON: on each line one object, in the shape in which it would be proposed by itself. */
@Component
class ImportLines {
  static final int LONGEST_LINE = 65_536;

  private final JsonBodies json;
  private final Proposals proposals;

  ImportLines(JsonBodies json, Proposals proposals) {
    this.json = json;
    this.proposals = proposals;
  }

  /** Reads a file line by line; empty lines are passed over. */
  void read(ImportOrder order, Evidence catalogue, ImportFiling filing) {
    Reading reading = new Reading(order, catalogue, filing);
    try (InputStream in = ImportDesk.open(order.body())) {
      Lines lines = new Lines(in, LONGEST_LINE, () -> {});
      for (Lines.Line line = lines.next(); line != null; line = lines.next()) reading.line(line);
      if (filing.counts().rows() == 0)
        filing.fault(1, "", null, "the file is empty; it holds one JSON object a line");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private final class Reading {
    private final ImportOrder order;
    private final Evidence catalogue;
    private final ImportFiling filing;
    private final RecordCheck check;
    private final Set<String> newIds = new HashSet<>();

    Reading(ImportOrder order, Evidence catalogue, ImportFiling filing) {
      this.order = order;
      this.catalogue = catalogue;
      this.filing = filing;
      this.check = new RecordCheck(catalogue.traits(), catalogue.plants(), catalogue.sources());
    }

    void line(Lines.Line line) {
      long number = line.number();
      if (line.bytes() == null) {
        filing.fault(
            number,
            "",
            null,
            "the line is " + line.length() + " bytes long; at most " + LONGEST_LINE + " are read");
        return;
      }
      String text;
      try {
        text = line.text();
      } catch (CharacterCodingException e) {
        filing.fault(
            number, "", null, "the line is not UTF-8; save the file as UTF-8 and send it again");
        return;
      }
      if (text.isEmpty()) return;
      try {
        Kind kind = order.kind();
        if (kind == Kind.SOURCES) source(number, json.read(text, SourceBody.class).source());
        else if (kind == Kind.STOCKS) stock(number, json.read(text, StockBody.class).stock());
        else if (kind == Kind.VARIETY_CATALOGUE)
          filing.variety(number, json.read(text, VarietyBody.class).variety());
        else record(number, json.read(text, RecordBody.class));
      } catch (ProblemException e) {
        for (ProblemError error : e.errors())
          filing.fault(number, "", error.pointer(), words(error));
        if (e.errors().isEmpty()) filing.fault(number, "", null, String.valueOf(e.getMessage()));
      } catch (Refusal refusal) {
        refused(number, List.of(refusal));
      }
    }

    private static String words(ProblemError error) {
      return error.detail()
          + (error.nearest() == null
              ? ""
              : "; nearest known: " + String.join(", ", error.nearest()));
    }

    /**
     * What a record restates, or a stock is a clone of, must stand on a line before it or be known.
     */
    private void source(long line, Source source) {
      known(
          source.origin(),
          "origin",
          catalogue.sources().containsKey(String.valueOf(source.origin())),
          List.of());
      filing.source(line, source);
      newIds.add(source.id());
    }

    private void stock(long line, Stock stock) {
      String parent = String.valueOf(stock.cloneOf());
      known(
          stock.cloneOf(),
          "cloneOf",
          catalogue.plants().stock(parent).isPresent(),
          catalogue.plants().nearestStocks(parent));
      filing.stock(line, stock);
      newIds.add(stock.id());
    }

    private void known(
        @org.jspecify.annotations.Nullable String id,
        String field,
        boolean before,
        List<String> nearest) {
      if (id != null && !before && !newIds.contains(id))
        throw new Refusal.Unknown(field, id, nearest);
    }

    private void record(long line, RecordBody body) {
      RecordCheck.Draft draft = body.draft(catalogue.traits());
      List<Refusal> wrong = new ArrayList<>(check.problems(draft));
      if (body.supersedes() != null)
        proposals.superseded(body.supersedes(), draft).ifPresent(wrong::add);
      if (!wrong.isEmpty()) {
        for (ProblemError error : ProblemException.ofRefusals(wrong, "").errors()) {
          filing.fault(
              line,
              "",
              error.pointer() == null ? null : body.member(error.pointer()),
              words(error));
        }
        return;
      }
      TraitRecord record = check.make(draft);
      Kind kind = order.kind();
      if (kind != null && EvidenceFile.kindOf(record) != kind) {
        filing.fault(
            line,
            "",
            "#",
            "the record is of the kind "
                + EvidenceFile.kindOf(record).id()
                + ", not "
                + kind.id()
                + "; the kind records takes all");
        return;
      }
      filing.record(record, body.supersedes());
    }

    private void refused(long line, List<Refusal> refusals) {
      for (ProblemError error : ProblemException.ofRefusals(refusals, "").errors())
        filing.fault(line, "", error.pointer(), words(error));
    }
  }
}
