package org.tareline.rollup;

import java.util.List;
import java.util.Locale;
import java.util.Map;

/** What a line does in a rig: the roles that every ledger has. A ledger may add its own. */
public final class Roles {

  public static final String BODY = "body";
  public static final String SUSPENSION = "suspension";
  public static final String TREE_STRAP = "tree strap";
  public static final String CONTINUOUS_LOOP = "continuous loop";
  public static final String HARDWARE = "hardware";
  public static final String STRUCTURAL_RIDGE_LINE = "structural ridge line";
  public static final String TARP_RIDGE_LINE = "tarp ridge line";
  public static final String BUG_NET = "bug net";
  public static final String SPREADER_BAR = "spreader bar";
  public static final String UNDERQUILT = "underquilt";
  public static final String TOP_QUILT = "top quilt";
  public static final String PAD = "pad";
  public static final String PILLOW = "pillow";
  public static final String TARP = "tarp";
  public static final String GUY_LINE = "guy line";
  public static final String STAKE = "stake";
  public static final String STUFF_SACK = "stuff sack";
  public static final String OTHER = "other";

  /** All of them, in the order pages list them. */
  public static final List<String> ALL =
      List.of(
          BODY,
          SUSPENSION,
          TREE_STRAP,
          CONTINUOUS_LOOP,
          HARDWARE,
          STRUCTURAL_RIDGE_LINE,
          TARP_RIDGE_LINE,
          BUG_NET,
          SPREADER_BAR,
          UNDERQUILT,
          TOP_QUILT,
          PAD,
          PILLOW,
          TARP,
          GUY_LINE,
          STAKE,
          STUFF_SACK,
          OTHER);

  /** The trade says "ridge line" and means the one inside the hang, not the tarp's. */
  private static final Map<String, String> SYNONYMS = Map.of("ridge line", STRUCTURAL_RIDGE_LINE);

  private Roles() {}

  /** A role as it is kept: small letters, single spaces, one word for one thing. */
  public static String normalise(String role) {
    String plain = role.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
    return SYNONYMS.getOrDefault(plain, plain);
  }
}
