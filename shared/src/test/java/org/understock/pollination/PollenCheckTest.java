package org.understock.pollination;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.pollination.SetVerdict.Mending;
import org.understock.pollination.SetVerdict.State;
import org.understock.wording.Words;

/** Whole plantings: what holds of them, and additions against all subsets of small catalogues. */
class PollenCheckTest {
  private static SetVerdict check(Orchard orchard, List<String> from, String... set) {
    return check(orchard, from, List.of(set), 3);
  }

  private static SetVerdict check(Orchard orchard, List<String> from, List<String> set, int most) {
    Map<Crop, Pollination> crops = new EnumMap<>(Crop.class);
    PollenCheck check =
        new PollenCheck(crop -> crops.computeIfAbsent(crop, c -> Pollination.of(orchard, c)));
    return check.check(
        varieties(orchard, set), from.isEmpty() ? null : varieties(orchard, from), most);
  }

  private static List<Variety> varieties(Orchard orchard, List<String> ids) {
    return ids.stream().map(id -> orchard.plants().variety(id).orElseThrow()).toList();
  }

  private static List<List<String>> options(Mending mending) {
    return mending.options().stream().map(o -> o.stream().map(Variety::id).toList()).toList();
  }

  /**
   * Alleles of the diploids: matsumoto-2014-apple-s. Mutsu is a triploid (niab-apple-pollinators).
   */
  private static Orchard apples() {
    return new Orchard()
        .with(Crop.APPLE, "Mutsu")
        .ploidy(3)
        .alleles("S2S3S20")
        .bloomGroup("mid")
        .with(Crop.APPLE, "Fuji")
        .alleles("S1S9")
        .bloomGroup("mid")
        .with(Crop.APPLE, "Tsugaru")
        .alleles("S3S7")
        .bloomGroup("mid")
        .with(Crop.APPLE, "Akane")
        .alleles("S7S24")
        .bloomGroup("early-mid")
        .selfFertile("no");
  }

  /**
   * A planting with one triploid needs two diploids: one for it and a second for the first
   * (ontario-crabapple-pollenizers).
   */
  @Test
  void a_triploid_needs_two_others_that_pollinate_each_other() {
    SetVerdict two = check(apples(), List.of(), "mutsu", "fuji");
    assertThat(two.pairs()).hasSize(4);
    assertThat(two.in(State.UNSERVED)).containsExactly("fuji");
    assertThat(two.outcome()).isEqualTo(State.UNSERVED);
    assertThat(two.receipts().get(0).donors()).containsExactly("fuji");
    assertThat(options(two.mendings().get(0)))
        .as("whole pollen and good bloom first")
        .containsExactly(List.of("tsugaru"), List.of("akane"));
    assertThat(check(apples(), List.of(), "mutsu", "fuji", "tsugaru").complete()).isTrue();
    Mending alone = check(apples(), List.of(), "mutsu").mendings().get(0);
    assertThat(options(alone))
        .containsExactly(
            List.of("fuji", "tsugaru"), List.of("akane", "fuji"), List.of("akane", "tsugaru"));
    assertThat(alone.fewest()).isTrue();
  }

  @Test
  void the_askers_own_list_bounds_the_search_and_what_it_cannot_mend_is_said() {
    SetVerdict one = check(apples(), List.of("akane", "mutsu"), "fuji");
    assertThat(options(one.mendings().get(0))).containsExactly(List.of("akane"));
    SetVerdict none = check(apples(), List.of("mutsu"), "fuji");
    assertThat(none.mendings().get(0).options()).isEmpty();
    assertThat(none.mendings().get(0).beyond()).containsExactly("fuji");
  }

  /** Nameless varieties: neither alleles nor bloom are recorded. */
  @Test
  void what_is_not_known_is_told_from_what_is_known_to_fail() {
    Orchard orchard =
        apples().with(Crop.APPLE, "Nameless").with(Crop.APPLE, "Without date").alleles("S3S7");
    SetVerdict open = check(orchard, List.of(), "fuji", "nameless");
    assertThat(open.in(State.UNSURE)).containsExactly("fuji", "nameless");
    assertThat(open.complete()).isFalse();
    assertThat(open.outcome()).isEqualTo(State.UNSURE);
    assertThat(open.receipts().get(0).text().in(Words.ENGLISH)).contains("that of Nameless may");
    Mending mending = open.mendings().get(0);
    assertThat(mending.mends()).containsExactly("fuji");
    assertThat(mending.beyond()).containsExactly("nameless");
    assertThat(check(orchard, List.of(), "fuji", "without-date").outcome())
        .as("pollen works, bloom not recorded")
        .isEqualTo(State.UNSURE);
    SetVerdict apricot = check(new Orchard().with(Crop.APRICOT, "Alone"), List.of(), "alone");
    assertThat(apricot.outcome())
        .as("half of the apricots are self-fertile")
        .isEqualTo(State.UNSURE);
  }

  /**
   * European and Japanese plum do not pollinate each other (usu-boxelder-plum keeps its lists
   * apart).
   */
  @Test
  void kinds_that_do_not_cross_are_served_and_mended_apart() {
    Orchard orchard =
        new Orchard()
            .with(Crop.EUROPEAN_PLUM, "President")
            .selfFertile("no")
            .with(Crop.JAPANESE_PLUM, "Shiro")
            .selfFertile("no")
            .bloomGroup("mid")
            .with(Crop.JAPANESE_PLUM, "Toka")
            .pollinatedBy("Shiro")
            .bloomGroup("mid")
            .with(Crop.JAPANESE_PLUM, "Superior")
            .pollinatedBy("Toka")
            .bloomGroup("mid")
            .with(Crop.SWEET_CHERRY, "Bing")
            .alleles("S3S4")
            .bloomGroup("mid")
            .with(Crop.SWEET_CHERRY, "Lapins")
            .alleles("S1S4'")
            .bloomGroup("mid")
            .with(Crop.PEACH, "J.H. Hale")
            .selfFertile("no")
            .pollenFertile("no")
            .bloomGroup("mid")
            .with(Crop.PEACH, "Contender")
            .selfFertile("yes")
            .bloomGroup("mid");
    SetVerdict mixed = check(orchard, List.of(), "president", "shiro", "bing", "j-h-hale");
    assertThat(mixed.pairs()).hasSize(16);
    assertThat(mixed.in(State.UNSERVED)).containsExactly("president", "shiro", "bing", "j-h-hale");
    assertThat(mixed.pairs())
        .filteredOn(p -> !p.pollen().equals(p.receiver()))
        .allMatch(p -> p.verdict() == Verdict.NONE);
    assertThat(mixed.mendings())
        .extracting(Mending::mends, PollenCheckTest::options)
        .containsExactlyInAnyOrder(
            org.assertj.core.groups.Tuple.tuple(List.of(), List.of()),
            org.assertj.core.groups.Tuple.tuple(List.of(), List.of()),
            org.assertj.core.groups.Tuple.tuple(List.of("bing"), List.of(List.of("lapins"))),
            org.assertj.core.groups.Tuple.tuple(
                List.of("j-h-hale"), List.of(List.of("contender"))));
  }

  /**
   * Any other peach will do for J.H. Hale (usu-intermountain-peach), although no bloom dates of
   * peaches are recorded.
   */
  @Test
  void where_any_partner_will_do_missing_dates_do_not_hinder() {
    Orchard peaches =
        new Orchard()
            .with(Crop.PEACH, "J.H. Hale")
            .selfFertile("no")
            .pollenFertile("no")
            .with(Crop.PEACH, "Contender")
            .selfFertile("yes");
    assertThat(check(peaches, List.of(), "j-h-hale", "contender").complete()).isTrue();
    assertThat(options(check(peaches, List.of(), "j-h-hale").mendings().get(0)))
        .containsExactly(List.of("contender"));
  }

  /** Twenty apples of ten genotypes without a common allele: all but one in nineteen pairs work. */
  @Test
  void what_is_only_likely_to_help_is_kept_apart_from_what_is_sure() {
    Orchard orchard = new Orchard();
    for (int k = 0; k < 20; k++)
      orchard
          .with(Crop.APPLE, "Variety " + k)
          .alleles("S" + (k / 2 * 2 + 1) + "S" + (k / 2 * 2 + 2))
          .bloomGroup("mid");
    orchard
        .with(Crop.APPLE, "Bramley's Seedling")
        .ploidy(3)
        .bloomGroup("mid")
        .with(Crop.APPLE, "Never met")
        .bloomGroup("late")
        .ploidy(3);
    Mending mending =
        check(orchard, List.of(), "bramley-s-seedling", "never-met").mendings().get(0);
    assertThat(mending.options()).isEmpty();
    assertThat(mending.beyond()).containsExactly("bramley-s-seedling", "never-met");
    assertThat(mending.likely()).hasSize(3).allSatisfy(option -> assertThat(option).hasSize(2));
    assertThat(mending.stillBeyond()).containsExactly("never-met");
    Mending stands =
        check(orchard, List.of(), "bramley-s-seedling", "variety-0", "variety-2").mendings().get(0);
    assertThat(stands.likelyServed()).containsExactly("bramley-s-seedling");
    assertThat(stands.likely()).isEmpty();
    Mending one = check(orchard, List.of(), "bramley-s-seedling", "variety-0").mendings().get(0);
    assertThat(one.mends()).containsExactly("variety-0");
    assertThat(one.options()).hasSize(3);
    assertThat(one.likelyServed()).containsExactly("bramley-s-seedling");
    assertThat(one.likely()).as("what serves Variety 0 stands among the options already").isEmpty();
  }

  /**
   * Vary the seed to meet other orchards. Apples with few alleles, bloom groups, triploids and
   * gaps, so that sets fail in every way.
   */
  private static Orchard wild(Random random, int varieties) {
    Orchard orchard = new Orchard();
    for (int k = 0; k < varieties; k++) {
      orchard.with(Crop.APPLE, "Variety " + k);
      int a = 1 + random.nextInt(3);
      int b = a + 1 + random.nextInt(2);
      if (random.nextInt(8) > 0) orchard.alleles("S" + a + "S" + b);
      if (random.nextInt(4) == 0) orchard.ploidy(3);
      if (random.nextInt(8) > 0) orchard.bloomGroup(BloomTime.GROUPS.get(random.nextInt(5)));
      if (random.nextInt(6) == 0) orchard.selfFertile(random.nextBoolean() ? "yes" : "no");
    }
    return orchard;
  }

  private static List<String> some(Random random, int varieties, int most) {
    List<String> ids =
        new ArrayList<>(IntStream.range(0, varieties).mapToObj(k -> "variety-" + k).toList());
    Collections.shuffle(ids, random);
    return List.copyOf(ids.subList(0, 1 + random.nextInt(most)));
  }

  /**
   * Every subset of the catalogue is tried; a subset mends the set when it and the set are served
   * whole, those apart that no subset serves.
   */
  @Tag("slow")
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void additions_are_the_smallest_of_all_subsets(long seed) {
    Random random = new Random(seed);
    int mended = 0;
    for (int round = 0; round < 25; round++) {
      Orchard orchard = wild(random, 9);
      List<String> set = some(random, 9, 3);
      SetVerdict verdict = check(orchard, List.of(), set, 1000);
      List<String> others =
          orchard.plants().varieties().stream()
              .map(Variety::id)
              .filter(id -> !set.contains(id))
              .toList();
      List<String> helped = new ArrayList<>();
      List<TreeSet<String>> whole = new ArrayList<>();
      for (int bits = 0; bits < 1 << others.size(); bits++) {
        int chosen = bits;
        TreeSet<String> added =
            new TreeSet<>(
                IntStream.range(0, others.size())
                    .filter(k -> (chosen >> k & 1) == 1)
                    .mapToObj(others::get)
                    .toList());
        List<String> all = new ArrayList<>(set);
        all.addAll(added);
        List<String> served = check(orchard, List.of("variety-0"), all, 0).in(State.SERVED);
        if (!served.containsAll(added)) continue;
        for (String id : served) if (set.contains(id) && !helped.contains(id)) helped.add(id);
        whole.add(added);
      }
      List<TreeSet<String>> mending =
          whole.stream()
              .filter(
                  added -> {
                    List<String> all = new ArrayList<>(set);
                    all.addAll(added);
                    return check(orchard, List.of("variety-0"), all, 0)
                        .in(State.SERVED)
                        .containsAll(helped);
                  })
              .toList();
      int fewest = mending.stream().mapToInt(TreeSet::size).min().orElseThrow();
      List<List<String>> expected =
          fewest == 0
              ? List.of()
              : mending.stream()
                  .filter(added -> added.size() == fewest)
                  .map(added -> List.copyOf(added))
                  .toList();
      List<List<String>> got =
          verdict.mendings().stream().flatMap(m -> options(m).stream()).toList();
      assertThat(got)
          .as("seed %d, round %d, set %s", seed, round, set)
          .containsExactlyInAnyOrderElementsOf(expected);
      if (fewest > 0) mended++;
    }
    assertThat(mended).as("rounds in which there was something to mend").isGreaterThan(5);
  }

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14})
  void another_variety_never_makes_it_worse_for_those_that_stand_and_order_changes_nothing(
      long seed) {
    Random random = new Random(seed);
    for (int round = 0; round < 50; round++) {
      Orchard orchard = wild(random, 9);
      List<String> set = some(random, 9, 5);
      SetVerdict before = check(orchard, List.of(), set, 5);
      List<String> turned = new ArrayList<>(set);
      Collections.reverse(turned);
      SetVerdict other = check(orchard.shuffled(seed), List.of(), turned, 5);
      assertThat(other.outcome()).isEqualTo(before.outcome());
      assertThat(other.mendings().stream().map(PollenCheckTest::options).toList())
          .isEqualTo(before.mendings().stream().map(PollenCheckTest::options).toList());
      for (State state : State.values())
        assertThat(other.in(state)).containsExactlyInAnyOrderElementsOf(before.in(state));
      List<String> more = new ArrayList<>(set);
      more.add(some(random, 9, 1).get(0));
      if (new TreeSet<>(more).size() < more.size()) continue;
      SetVerdict after = check(orchard, List.of(), more, 5);
      for (int k = 0; k < set.size(); k++)
        assertThat(after.receipts().get(k).state())
            .isLessThanOrEqualTo(before.receipts().get(k).state());
    }
  }

  /**
   * Each of six varieties blooms with one partner only: six are more than the exact search tries,
   * and the answer says so.
   */
  @Test
  void beyond_a_few_the_plain_choice_stands_in_and_says_so() {
    Orchard orchard = new Orchard();
    List<String> set = new ArrayList<>();
    for (int k = 0; k < 6; k++) {
      orchard
          .with(Crop.SWEET_CHERRY, "Lone " + k)
          .alleles("S1S2")
          .bloomDay(20 * k, 0.1)
          .with(Crop.SWEET_CHERRY, "Friend " + k)
          .alleles("S3S4")
          .bloomDay(20 * k + 1, 0.1);
      set.add("lone-" + k);
    }
    Mending mending = check(orchard, List.of(), set, 3).mendings().get(0);
    assertThat(mending.fewest()).isFalse();
    assertThat(options(mending))
        .containsExactly(
            List.of("friend-0", "friend-1", "friend-2", "friend-3", "friend-4", "friend-5"));
    assertThat(check(orchard, List.of(), set.subList(0, 4), 3).mendings().get(0).fewest()).isTrue();
  }
}
