package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.service.platform.OneOf;
import org.understock.trait.Refusal;

/**
 * What a statement is about: a stock in a crop, a variety, or a pairing.
 *
 * @param stock id of the stock; with {@code variety} or {@code reach} the statement is about the
 *     pairing
 * @param variety id of the variety
 * @param reach how many varieties a statement about a stock under varieties at large means
 */
@Schema(
    name = "RecordSubject",
    description = "A stock in a crop, a variety, or a pairing of the two.")
public record SubjectBody(
    @NotNull @OneOf(Crop.class) @Schema(requiredMode = Schema.RequiredMode.REQUIRED)
        @Nullable String crop,
    @Size(min = 1, max = 100)
        @Schema(
            description =
                "Id of the stock; with variety or reach the statement is about the pairing.")
        @Nullable String stock,
    @Size(min = 1, max = 100) @Schema(description = "Id of the variety.") @Nullable String variety,
    @Schema(
            allowableValues = {"named", "all", "most", "some"},
            description =
                "How many varieties a statement about a stock under varieties at large means; left out, or `named`, when the variety is given.")
        @Nullable String reach) {

  public static SubjectBody of(Subject subject) {
    String crop = subject.crop().id();
    if (subject instanceof Subject.StockIn s) return new SubjectBody(crop, s.stock(), null, null);
    if (subject instanceof Subject.OfVariety v)
      return new SubjectBody(crop, null, v.variety(), null);
    Subject.Pairing p = (Subject.Pairing) subject;
    return new SubjectBody(crop, p.stock(), p.variety(), p.reach().name().toLowerCase(Locale.ROOT));
  }

  /**
   * @throws Refusal when it names neither stock nor variety, or a reach that does not fit
   */
  Subject subject() {
    Crop of = Crop.of(String.valueOf(crop));
    if (stock == null && variety == null)
      throw new Refusal.Conflict("subject", "a subject names a stock, a variety, or both");
    if (stock == null) {
      if (reach != null)
        throw new Refusal.Conflict("subject.reach", "reach goes with a stock and no variety");
      return new Subject.OfVariety(of, Objects.requireNonNull(variety));
    }
    if (variety == null && reach == null) return new Subject.StockIn(of, stock);
    return new Subject.Pairing(
        of,
        stock,
        variety,
        reach == null
            ? Subject.Pairing.Reach.NAMED
            : Words.constant("subject.reach", reach, Subject.Pairing.Reach.class));
  }
}
