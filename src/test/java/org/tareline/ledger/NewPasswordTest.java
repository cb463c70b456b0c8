package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;

class NewPasswordTest {

  private static List<String> faults(String password) {
    Faults faults = new Faults();
    String read = NewPassword.read(faults, password, "Ada of the Rope Walk");
    try {
      faults.refuseIfAny();
    } catch (Refusal refused) {
      return refused.faults().stream().map(Refusal.Fault::message).toList();
    }
    assertThat(read).isEqualTo(password);
    return List.of();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "password1234",
        "passwordpassword",
        "qwertyuiop12",
        "123456789012",
        "aaaaaaaaaaaa",
        "letmeinletmein1",
        "hammocktareline",
        "tareline-2026",
        "ada of the rope walk"
      })
  void what_anybody_would_try_first_is_refused(String common) {
    assertThat(faults(common)).singleElement().asString().contains("harder to guess");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "twelve letters",
        "three pegs under a wet beech",
        "xk9qpw72mzrt",
        "дюжина колышков под берёзой",
        "  spaces at both ends  "
      })
  void a_sentence_of_ones_own_or_what_a_machine_drew_is_taken_as_typed(String good) {
    assertThat(faults(good)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {12, 64, 200})
  void from_12_characters_to_200_of_any_alphabet(int length) {
    assertThat(faults(drawn(length))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 11, 201})
  void no_fewer_and_no_more(int length) {
    assertThat(faults(drawn(length))).singleElement().asString().contains("characters");
  }

  /** Of characters that are two in Java and four bytes in UTF-8, no two in a row alike. */
  private static String drawn(int length) {
    return new java.util.Random(7)
        .ints(length, 0x1F300, 0x1F5FF)
        .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
        .toString();
  }
}
