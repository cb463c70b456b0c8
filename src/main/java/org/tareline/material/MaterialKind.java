package org.tareline.material;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.tareline.cutting.Stock.Per;
import org.tareline.site.Codes;

/** What sort of thing a material is, and what its mass is for. */
public enum MaterialKind {
  FABRIC(Per.SQUARE_METRE),
  NETTING(Per.SQUARE_METRE),
  CORD(Per.METRE),
  WEBBING(Per.METRE),
  TAPE(Per.METRE),
  HARDWARE(Per.PIECE),
  THREAD(Per.METRE),
  /** Sheet, by area; or a filling, by its fill power. */
  INSULATION(Per.SQUARE_METRE),
  OTHER(Per.SQUARE_METRE, Per.METRE, Per.PIECE);

  private final Set<Per> per;

  MaterialKind(Per... per) {
    this.per = Set.of(per);
  }

  /** The word in pages, API and database. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What its mass may be for. */
  Set<Per> per() {
    return per;
  }

  /** What its mass is for, where its kind alone says so. */
  Optional<Per> only() {
    return per.size() == 1 ? per.stream().findFirst() : Optional.empty();
  }

  public static Optional<MaterialKind> of(String word) {
    String key = Codes.key(word);
    return Arrays.stream(values()).filter(kind -> kind.word().equals(key)).findFirst();
  }
}
