package org.tareline.cutting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import org.tareline.cutting.Nesting.Piece;
import org.tareline.cutting.Nesting.Place;

class NestingTest {

  @Test
  void pieces_that_fit_beside_one_another_take_one_row() {
    Nesting nesting =
        Nesting.of(
            List.of(new Piece("a", 3, 0.5), new Piece("b", 2, 0.5), new Piece("c", 1, 0.5)), 1.5);

    assertThat(nesting.metres()).isCloseTo(3, within(1e-12));
    assertThat(nesting.places()).hasSize(3);
  }

  @Test
  void the_next_one_begins_a_row() {
    Nesting nesting = Nesting.of(List.of(new Piece("a", 3, 1.4), new Piece("b", 2, 1.4)), 1.5);

    assertThat(nesting.metres()).isCloseTo(5, within(1e-12));
  }

  @Test
  void one_is_turned_only_where_it_would_not_fit_and_one_that_never_fits_is_said() {
    Nesting nesting = Nesting.of(List.of(new Piece("a", 1.2, 2), new Piece("b", 2, 2)), 1.5);

    assertThat(nesting.places()).extracting(Place::turned).containsExactly(true);
    assertThat(nesting.metres()).isCloseTo(2, within(1e-12));
    assertThat(nesting.tooWide()).extracting(Piece::name).containsExactly("b");
  }

  @RepeatedTest(50)
  void no_two_pieces_lie_on_one_another_and_none_beyond_the_cloth(RepetitionInfo repetition) {
    Random random = new Random(repetition.getCurrentRepetition());
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      pieces.add(
          new Piece("p" + i, 0.05 + 2 * random.nextDouble(), 0.05 + 1.4 * random.nextDouble()));
    }

    Nesting nesting = Nesting.of(pieces, 1.5);

    assertThat(nesting.places()).hasSize(30);
    List<Place> places = nesting.places();
    double area = 0;
    for (int i = 0; i < places.size(); i++) {
      Place a = places.get(i);
      area += a.length() * a.width();
      assertThat(a.across() + a.width()).isLessThanOrEqualTo(1.5 + 1e-9);
      assertThat(a.along() + a.length()).isLessThanOrEqualTo(nesting.metres() + 1e-9);
      for (int j = 0; j < i; j++) {
        Place b = places.get(j);
        boolean apart =
            a.along() + a.length() <= b.along() + 1e-9
                || b.along() + b.length() <= a.along() + 1e-9
                || a.across() + a.width() <= b.across() + 1e-9
                || b.across() + b.width() <= a.across() + 1e-9;
        assertThat(apart).as("%s and %s", a, b).isTrue();
      }
    }
    assertThat(nesting.metres() * 1.5).isGreaterThanOrEqualTo(area);
  }
}
