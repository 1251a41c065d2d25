package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.understock.plant.Crop;
import org.understock.plant.Stock.Kind;

/** The alley is the middle of what rows have more than trees in the row; round invented numbers. */
class AlleysTest {
  private static FakeBook spaced(FakeBook book, Crop crop, String stock, double inRowM, double m) {
    return book.stock(crop, stock, Kind.CLONE)
        .quantity(crop, stock, "in-row-spacing", inRowM)
        .quantity(crop, stock, "row-spacing", inRowM + m);
  }

  @Test
  void a_crop_with_three_spacings_has_its_own_middle_and_others_that_of_all() {
    FakeBook book = new FakeBook();
    spaced(book, Crop.APPLE, "a", 2, 1.5);
    spaced(book, Crop.APPLE, "b", 3, 4);
    spaced(book, Crop.APPLE, "c", 4, 2.5);
    spaced(book, Crop.PEACH, "p", 5, 3.5);
    Alleys alleys = Alleys.of(book);
    assertThat(alleys.of(Crop.APPLE)).isCloseTo(2.5, within(1e-9));
    // 1.5, 2.5, 3.5 and 4 together
    assertThat(alleys.of(Crop.PEACH)).isCloseTo(3, within(1e-9));
    assertThat(alleys.of(Crop.QUINCE)).isCloseTo(3, within(1e-9));
  }

  @Test
  void rows_no_wider_than_the_trees_in_them_and_stocks_with_one_distance_tell_nothing() {
    FakeBook book = new FakeBook();
    spaced(book, Crop.APPLE, "a", 2, 2);
    spaced(book, Crop.APPLE, "square", 3, 0);
    spaced(book, Crop.APPLE, "crossed", 4, -1);
    book.stock(Crop.APPLE, "rows-alone", Kind.CLONE)
        .quantity(Crop.APPLE, "rows-alone", "row-spacing", 9);
    assertThat(Alleys.of(book).of(Crop.APPLE)).isCloseTo(2, within(1e-9));
  }

  /** The usual width of home orchards' tables (home-fruit-guidelines-table2, psu-fphg-table4-3). */
  @Test
  void a_book_without_spacings_has_that_of_the_tables() {
    assertThat(Alleys.of(new FakeBook()).of(Crop.APPLE)).isBetween(1.5, 2.4);
  }
}
