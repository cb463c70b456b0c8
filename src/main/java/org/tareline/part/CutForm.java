package org.tareline.part;

import static org.tareline.part.CutSize.ALLOWANCE;
import static org.tareline.part.CutSize.AREA;
import static org.tareline.part.CutSize.BASE;
import static org.tareline.part.CutSize.CHORD;
import static org.tareline.part.CutSize.DEPTH;
import static org.tareline.part.CutSize.FILL_POWER;
import static org.tareline.part.CutSize.HEIGHT;
import static org.tareline.part.CutSize.LENGTH;
import static org.tareline.part.CutSize.LENGTH_ALLOWANCE;
import static org.tareline.part.CutSize.LOFT;
import static org.tareline.part.CutSize.MASS;
import static org.tareline.part.CutSize.RATIO;
import static org.tareline.part.CutSize.SEAM_THICKNESS;
import static org.tareline.part.CutSize.STITCH_LENGTH;
import static org.tareline.part.CutSize.TOP;
import static org.tareline.part.CutSize.WIDTH;
import static org.tareline.part.CutSize.WIDTH_ALLOWANCE;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Cut;
import org.tareline.cutting.Shape;
import org.tareline.cutting.Stock;
import org.tareline.cutting.Stock.Per;

/**
 * What a line of a cut list can be, with the sizes that it wants and those it may have. Sizes and
 * allowances together are the cut piece; a depth is of the cut piece already.
 */
public enum CutForm {
  RECTANGLE("panel", "rectangle", List.of(LENGTH, WIDTH), LENGTH_ALLOWANCE, WIDTH_ALLOWANCE),
  TRAPEZOID("panel", "trapezoid", List.of(BASE, TOP, HEIGHT), LENGTH_ALLOWANCE, WIDTH_ALLOWANCE),
  TRIANGLE("panel", "triangle", List.of(BASE, HEIGHT), LENGTH_ALLOWANCE, WIDTH_ALLOWANCE),
  ELLIPSE("panel", "ellipse", List.of(LENGTH, WIDTH), LENGTH_ALLOWANCE, WIDTH_ALLOWANCE),
  PARABOLIC_EDGES(
      "panel", "parabolic-edges", List.of(LENGTH, WIDTH, DEPTH), LENGTH_ALLOWANCE, WIDTH_ALLOWANCE),
  PARABOLIC_SEGMENT("panel", "parabolic-segment", List.of(CHORD, DEPTH), LENGTH_ALLOWANCE),
  RUN("length", null, List.of(LENGTH), ALLOWANCE),
  SEAM("seam", null, List.of(LENGTH), RATIO, SEAM_THICKNESS, STITCH_LENGTH),
  EACH("each", null, List.of()),
  FILL("fill", null, List.of(), MASS, AREA, LOFT, FILL_POWER);

  private static final Map<String, CutForm> BY_WORD =
      Arrays.stream(values()).collect(Collectors.toUnmodifiableMap(CutForm::word, form -> form));

  private final String kind;
  private final @Nullable String shape;
  private final List<CutSize> wanted;
  private final Set<CutSize> sizes;

  CutForm(String kind, @Nullable String shape, List<CutSize> wanted, CutSize... optional) {
    this.kind = kind;
    this.shape = shape;
    this.wanted = wanted;
    this.sizes =
        Stream.concat(wanted.stream(), Arrays.stream(optional))
            .collect(Collectors.toUnmodifiableSet());
  }

  /** The word for the kind of line: panel, length, seam, each or fill. */
  public String kind() {
    return kind;
  }

  /** The word for the shape of a panel; nothing of other kinds. */
  public Optional<String> shape() {
    return Optional.ofNullable(shape);
  }

  /** What it is called on a page. */
  public String words() {
    return shape == null ? kind : shape.replace('-', ' ');
  }

  /** The word in the database. */
  String word() {
    return shape == null ? kind : kind + "/" + shape;
  }

  /** Sizes without which it is nothing, in the order in which they are asked for. */
  public List<CutSize> wanted() {
    return wanted;
  }

  /** Whether it has a size of this name at all. */
  public boolean has(CutSize size) {
    return sizes.contains(size);
  }

  /** What its material has to be known by; nothing of a filling, which is weighed out. */
  public Optional<Per> per() {
    return switch (this) {
      case RUN, SEAM -> Optional.of(Per.METRE);
      case EACH -> Optional.of(Per.PIECE);
      case FILL -> Optional.empty();
      default -> Optional.of(Per.SQUARE_METRE);
    };
  }

  static Optional<CutForm> of(String kind, @Nullable String shape) {
    return Arrays.stream(values())
        .filter(form -> form.kind.equals(kind) && Objects.equals(form.shape, shape))
        .findFirst();
  }

  static CutForm named(String word) {
    CutForm named = BY_WORD.get(word);
    if (named == null) {
      throw new IllegalArgumentException("A line of a cut list is stored as " + word);
    }
    return named;
  }

  /** Sizes by their names, in base units; nothing where one was not given. */
  interface Sizes {
    @Nullable Double get(CutSize size);

    default double of(CutSize size) {
      Double amount = get(size);
      return amount == null ? 0 : amount;
    }
  }

  /**
   * The outline of a panel.
   *
   * @throws IllegalArgumentException if the sizes make no such shape
   */
  Shape outline(Sizes sizes) {
    double longer = sizes.of(LENGTH_ALLOWANCE);
    double wider = sizes.of(WIDTH_ALLOWANCE);
    return switch (this) {
      case RECTANGLE -> new Shape.Rectangle(sizes.of(LENGTH) + longer, sizes.of(WIDTH) + wider);
      case TRAPEZOID ->
          new Shape.Trapezoid(
              sizes.of(BASE) + longer, sizes.of(TOP) + longer, sizes.of(HEIGHT) + wider);
      case TRIANGLE -> new Shape.Triangle(sizes.of(BASE) + longer, sizes.of(HEIGHT) + wider);
      case ELLIPSE -> new Shape.Ellipse(sizes.of(LENGTH) + longer, sizes.of(WIDTH) + wider);
      case PARABOLIC_EDGES ->
          new Shape.ParabolicEdges(
              sizes.of(LENGTH) + longer, sizes.of(WIDTH) + wider, sizes.of(DEPTH));
      case PARABOLIC_SEGMENT ->
          new Shape.ParabolicSegment(sizes.of(CHORD) + longer, sizes.of(DEPTH));
      default -> throw new IllegalStateException(kind + " has no outline");
    };
  }

  /**
   * The line, cut from a stock.
   *
   * @throws IllegalArgumentException if the sizes or the stock do not fit
   */
  Cut cut(Stock stock, Sizes sizes, int quantity, boolean removed) {
    return switch (this) {
      case RUN -> new Cut.Run(stock, sizes.of(LENGTH) + sizes.of(ALLOWANCE), quantity);
      case SEAM -> new Cut.Seam(stock, sizes.of(LENGTH), ratio(sizes), quantity);
      case EACH -> new Cut.Each(stock, quantity);
      case FILL -> new Cut.Fill(stock, quantity * fill(sizes));
      default -> new Cut.Panel(stock, outline(sizes), quantity, removed);
    };
  }

  private static double ratio(Sizes sizes) {
    Double ratio = sizes.get(RATIO);
    return ratio != null
        ? ratio
        : sizes.get(STITCH_LENGTH) == null
            ? Cut.Seam.PLANNING_RATIO
            : Cut.Seam.lockstitch(sizes.of(SEAM_THICKNESS), 1 / sizes.of(STITCH_LENGTH));
  }

  private static double fill(Sizes sizes) {
    Double mass = sizes.get(MASS);
    return mass != null
        ? mass
        : Cut.Fill.gramsFor(sizes.of(AREA) * sizes.of(LOFT), sizes.of(FILL_POWER));
  }
}
