package org.understock.planting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.understock.advice.Adviser;
import org.understock.advice.Question;
import org.understock.economics.Costs;
import org.understock.economics.Money;
import org.understock.economics.Prices;
import org.understock.evidence.CompiledTraitBook;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;
import org.understock.planting.ComparisonQuestion.Named;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.trait.Refusal;

/** Plantings held against each other. Prices are invented. */
class ComparerTest {
  private static final Comparer COMPARER =
      Comparer.of(Adviser.of(CompiledTraitBook.compile(1, StarterEvidence.read().evidence())));
  private static final List<Named> EARLY_AND_LONG = List.of(named("m-9"), named("mm-111"));
  private static final Costs COSTS =
      new Costs(9.0, 3.0, 6.0, null, null, null, null, 3.0, null, 0.2, 2.0, null);

  @Test
  void dwarfs_crop_sooner_and_standards_last_longer() {
    Comparison both = COMPARER.compare(question(EARLY_AND_LONG, money(1, 4.0, 50)));
    assertThat(both.plantings()).hasSize(2);
    Comparison.Compared dwarf = of(both, "m-9");
    Comparison.Compared standard = of(both, "mm-111");
    assertThat(dwarf.plan().trees().size()).isGreaterThan(2 * standard.plan().trees().size());
    assertThat(dwarf.withoutCrop()).isLessThanOrEqualTo(standard.withoutCrop());
    Account early = Objects.requireNonNull(dwarf.account());
    Account late = Objects.requireNonNull(standard.account());
    assertThat(early.standingYears().likely()).isLessThan(late.standingYears().likely());
    assertThat(early.outlaySum()).isGreaterThan(late.outlaySum());
    assertThat(both.partings()).hasSize(1);
    System.out.println(both.text());
    for (Comparison.Compared planting : both.plantings()) System.out.println(planting.text());
  }

  @Test
  void lines_cross_where_they_are_said_to() {
    Comparison both = COMPARER.compare(question(EARLY_AND_LONG, money(1, 4.0, 50)));
    List<org.understock.economics.Spread> a = both.plantings().get(0).line();
    List<org.understock.economics.Spread> b = both.plantings().get(1).line();
    for (int t = 1; t < a.size(); t++) {
      double before = middle(a, t - 1) - middle(b, t - 1);
      double now = middle(a, t) - middle(b, t);
      assertThat(both.partings().get(0).years().contains(t)).isEqualTo(before * now < 0);
    }
  }

  private static double middle(List<org.understock.economics.Spread> line, int t) {
    return Objects.requireNonNull(line.get(t).likely());
  }

  @Test
  void chances_add_up_and_order_does_not_matter() {
    List<Named> three = List.of(named("m-9"), named("m-26"), named("mm-111"));
    Comparison one = COMPARER.compare(question(three, money(1, 4.0, 30)));
    Comparison other =
        COMPARER.compare(
            question(List.of(three.get(2), three.get(0), three.get(1)), money(1, 4.0, 30)));
    assertThat(one.plantings().stream().mapToDouble(Comparison.Compared::chanceBest).sum())
        .isCloseTo(1, within(1e-9));
    assertThat(one.text()).isEqualTo(other.text());
    for (int r = 0; r < 3; r++)
      assertThat(one.plantings().get(r).text()).isEqualTo(other.plantings().get(r).text());
  }

  @Test
  void a_better_price_of_its_own_makes_a_pairing_likelier_to_be_best() {
    double before =
        of(COMPARER.compare(question(EARLY_AND_LONG, money(1, 4.0, 30))), "mm-111").chanceBest();
    List<Named> dear = List.of(EARLY_AND_LONG.get(0), new Named("mm-111", "gala", 3.0, null));
    double after = of(COMPARER.compare(question(dear, money(1, 4.0, 30))), "mm-111").chanceBest();
    assertThat(after).isGreaterThan(before);
  }

  @Test
  void without_money_kilograms_are_compared() {
    Comparison kg = COMPARER.compare(question(EARLY_AND_LONG, null));
    assertThat(kg.byMoney()).isFalse();
    assertThat(kg.plantings()).allSatisfy(p -> assertThat(p.account()).isNull());
    assertThat(kg.plantings().get(0).totalKg().likely())
        .isGreaterThanOrEqualTo(kg.plantings().get(1).totalKg().likely());
    assertThat(kg.text()).contains("kg").contains("has borne more");
    System.out.println(kg.text());
  }

  @Test
  void the_best_of_a_crop_are_chosen_by_advice() {
    Comparison best =
        COMPARER.compare(
            new ComparisonQuestion(
                Plot.rectangle(40, 50, null),
                Layout.USUAL,
                Site.UNKNOWN,
                Goal.UNKNOWN,
                PollenRule.USUAL,
                4,
                Crop.APPLE,
                List.of(),
                List.of("gala"),
                List.of(),
                List.of(new ComparisonQuestion.Partner("m-9", "fuji")),
                4,
                Question.BestPer.STOCK,
                null,
                20));
    assertThat(best.plantings().size() + best.notPlanted().size()).isEqualTo(4);
    assertThat(best.plantings())
        .allSatisfy(
            p -> {
              assertThat(p.pairing().variety().id()).isEqualTo("gala");
              assertThat(p.plan().order()).hasSize(2);
              assertThat(p.plan().order().get(1).partner()).isTrue();
            });
  }

  @Test
  void what_cannot_be_compared_is_refused() {
    assertThatThrownBy(() -> question(List.of(named("m-9")), null))
        .isInstanceOf(Refusal.OutOfRange.class);
    assertThatThrownBy(() -> question(List.of(), null)).isInstanceOf(Refusal.Conflict.class);
    assertThatThrownBy(() -> COMPARER.compare(question(List.of(named("m-9"), named("m9")), null)))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("already");
    assertThatThrownBy(
            () -> COMPARER.compare(question(List.of(named("m-9"), named("m-99999")), null)))
        .isInstanceOfSatisfying(
            Refusal.Unknown.class, r -> assertThat(r.field()).isEqualTo("pairings[1].stock"));
    assertThatThrownBy(
            () -> question(List.of(named("m-9"), new Named("m-26", "gala", 2.0, null)), null))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("money.price.perKg");
  }

  private static Comparison.Compared of(Comparison comparison, String stock) {
    return comparison.plantings().stream()
        .filter(p -> p.pairing().stock().id().equals(stock))
        .findFirst()
        .orElseThrow();
  }

  private static Named named(String stock) {
    return new Named(stock, "gala", null, null);
  }

  private static Money money(double price, double discount, int years) {
    return new Money("crowns", years, discount, Prices.of(price), COSTS, Money.End.GRUB);
  }

  private static ComparisonQuestion question(List<Named> pairings, @Nullable Money money) {
    return new ComparisonQuestion(
        Plot.rectangle(50, 50, null),
        Layout.USUAL,
        Site.UNKNOWN,
        Goal.UNKNOWN,
        PollenRule.USUAL,
        4,
        null,
        List.of(),
        List.of(),
        pairings,
        List.of(),
        5,
        Question.BestPer.STOCK,
        money,
        money == null ? 30 : money.horizonYears());
  }
}
