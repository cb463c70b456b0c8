package org.tareline.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import org.tareline.evidence.Fibre;
import org.tareline.part.Comfort;
import org.tareline.part.CutForm;
import org.tareline.part.CutSize;
import org.tareline.part.GearSystem;
import org.tareline.rig.LoadPlace;
import org.tareline.rig.Termination;
import org.tareline.units.Kind;
import org.tareline.units.Percent;
import org.tareline.units.Quantity;
import org.tareline.units.Range;

/**
 * Every table of a ledger and every column of it, in an order in which each row points only at rows
 * of itself and of those before it. What is not here is named in {@link #LEFT_OUT}; a test holds
 * the two together against the database, so that no column is forgotten.
 */
final class LedgerTables {

  /** What is not in the files of a ledger, by table or by column, and why. */
  static final Map<String, String> LEFT_OUT =
      Map.ofEntries(
          Map.entry(
              "account", "people sign in to a server; what they did stands there by their name"),
          Map.entry("member", "who may see a ledger is for the server it is on to say"),
          Map.entry("token", "opens a door; made anew where it is wanted"),
          Map.entry("invitation", "opens a door; made anew where it is wanted"),
          Map.entry("share_link", "opens a door; made anew where it is wanted"),
          Map.entry("import_job", "a zip on its way in, which is thrown away after a day"),
          Map.entry("import_piece", "a zip on its way in, which is thrown away after a day"),
          Map.entry("ledger.uuid", "names the ledger on its server, where a copy is another one"),
          Map.entry(
              "*.id", "the database's own; rows point at each other by code or by their uuid"),
          Map.entry("*.ledger_id", "the ledger that is taken out or that it is put into"),
          Map.entry("part.waits", "follows from the weighings"),
          Map.entry("*.code_key", "the code in small letters, by which it is found"));

  private static final String[] STRENGTHS = {
    "minimum-breaking", "average-break", "working-load-limit"
  };
  private static final String[] FIBRES = words(Fibre.values(), Fibre::word);
  private static final String[] SYSTEMS = words(GearSystem.values(), GearSystem::word);

  private static final Consumer<String> FORCE =
      text -> Quantity.read(text, Kind.FORCE, null).positive();
  private static final Consumer<String> TEMPERATURE =
      text -> Quantity.read(text, Kind.TEMPERATURE, null);
  private static final Consumer<String> LENGTH = range(Kind.LENGTH);
  private static final Consumer<String> ANGLE = range(Kind.ANGLE);
  private static final Consumer<String> STRESS = range(Kind.MODULUS);
  private static final Consumer<String> LOAD =
      text -> Range.read(text, Range.kindOf(text) == Kind.FORCE ? Kind.FORCE : Kind.MASS, null);

  private static Consumer<String> range(Kind kind) {
    return text -> Range.read(text, kind, null);
  }

  /** What a weighing, a former code or a kept state can be of, and the table it stands in. */
  static final Map<String, String> SUBJECTS =
      Map.of(
          "part", "part",
          "rig", "rig",
          "trip", "trip",
          "afterwards", "trip",
          "material", "material",
          "swatch", "swatch",
          "cut-line", "cut_line",
          "rig loads", "rig_loads",
          "set-up", "set_up",
          "settings", "ledger");

  static final List<Table> ALL =
      List.of(
          table("ledger", "ledger.csv")
              .key("id")
              .text("name")
              .percent("stated_typed", "growth_estimated", "growth_calculated", "growth_weighed")
              .whole("check_every_days")
              .percent(
                  "air_nylon", "air_polyester", "air_hmpe", "air_cotton", "air_wool", "air_down")
              .text("design_factor")
              .whole("settings_revision")
              .instant("created_at")
              .done(),
          table("scale", "scales.csv")
              .uuid()
              .code()
              .text("name", "unit")
              .massTyped("readability")
              .massTyped("capacity")
              .massTyped("repeatability")
              .whole("repeatability_dof")
              .decimal("span_half_width", "")
              .typed("span_typed", "span-tolerance")
              .words("accuracy_class", "I", "II", "III", "IIII")
              .massTyped("interval")
              .whole("check_every_days")
              .instant("created_at")
              .done(),
          table("scale_check", "scale-checks.csv")
              .uuid()
              .refers("scale_id", "scale")
              .words("kind", "span", "repeatability")
              .text("note")
              .instant("checked_at", "entered_at")
              .person("entered_by")
              .done(),
          table("scale_check_reading", "scale-check-readings.csv")
              .key("scale_check_id", "position")
              .heldBy("scale_check_id", "weights")
              .inOrderOf("scale_check_id", "position")
              .refers("scale_check_id", "scale_check")
              .whole("position")
              .mass("reading_ng")
              .typed("typed", "reading")
              .massTyped("nominal")
              .mass("half_width_ng")
              .typed("tolerance_typed")
              .text("weight_class")
              .done(),
          voided("scale_check", "scale-checks-struck-out.csv"),
          table("material", "materials.csv")
              .uuid()
              .code()
              .text("name")
              .words(
                  "kind",
                  "fabric",
                  "netting",
                  "cord",
                  "webbing",
                  "tape",
                  "hardware",
                  "thread",
                  "insulation",
                  "other")
              .decimal("grams_per_square_metre", " [g/m2]")
              .decimal("grams_per_metre", " [g/m]")
              .mass("each_ng")
              .typed("nominal_typed")
              .typed("tolerance_typed")
              .decimal("fill_power", " [[cin_i]/[oz_av]]")
              .lengthTyped("width")
              .read(FORCE, "strength_typed")
              .words("strength_kind", STRENGTHS)
              .words("fibre", FIBRES)
              .typed("price_typed")
              .text("colour")
              .typed("stock_typed")
              .words("chosen", "nominal", "weighed")
              .text("note")
              .decimal("learned_grams", " [g]")
              .real("learned_uncertainty", "learned_freedom", "learned_ratio")
              .whole("learned_parts")
              .words("learned_against", "nominal", "weighed")
              .instant("learned_at", "created_at")
              .whole("revision")
              .done(),
          table("part", "parts.csv")
              .uuid()
              .code()
              .text("name")
              .words("system", SYSTEMS)
              .whole("owned")
              .massTyped("stated")
              .mass("stated_half_width_ng")
              .typed("stated_tolerance_typed", "tolerance")
              .words("fibre", FIBRES)
              .read(FORCE, "strength_typed")
              .words("strength_kind", STRENGTHS)
              .lengthTyped("cutting_tolerance")
              .decimal("packed_volume_ml", " [mL]")
              .typed("packed_volume_typed")
              .lengthTyped("packed_length")
              .read(TEMPERATURE, "comfort_typed")
              .words("comfort_kind", words(Comfort.Kind.values(), Comfort.Kind::word))
              .words("insulates", words(Comfort.Side.values(), Comfort.Side::word))
              .refers("variant_of_id", "part")
              .text("note")
              .instant("created_at")
              .whole("revision")
              .done(),
          table("cut_line", "cut-lines.csv")
              .heldBy("part_id", "lines")
              .uuid()
              .refers("part_id", "part")
              .whole("position")
              .text("name")
              .words(
                  "form",
                  words(
                      CutForm.values(),
                      form -> form.kind() + form.shape().map(shape -> "/" + shape).orElse("")))
              .refers("material_id", "material")
              .whole("quantity")
              .yesNo("removed")
              .whole("revision")
              .done(),
          table("cut_size", "cut-sizes.csv")
              .key("cut_line_id", "name")
              .heldBy("cut_line_id")
              .inOrderOf("cut_line_id", "name")
              .refers("cut_line_id", "cut_line")
              .words("name", words(CutSize.values(), CutSize::word))
              .decimal("amount", "")
              .typed("typed", "size")
              .done(),
          table("swatch", "swatches.csv")
              .uuid()
              .refers("material_id", "material")
              .lengthTyped("length")
              .length("length_half_width_nm")
              .lengthTyped("width")
              .length("width_half_width_nm")
              .typed("size_error_typed")
              .text("place")
              .done(),
          table("stock_entry", "stock.csv")
              .uuid()
              .refers("material_id", "material")
              .words("kind", "counted", "added", "cut")
              .decimal("amount", "")
              .typed("typed", "entry")
              .refers("part_id", "part")
              .text("note", "entry_key")
              .instant("happened_at", "entered_at")
              .person("entered_by")
              .done(),
          voided("stock_entry", "stock-struck-out.csv"),
          table("life_event", "life-events.csv")
              .uuid()
              .refers("part_id", "part")
              .words(
                  "kind",
                  "made",
                  "repaired",
                  "washed",
                  "modified",
                  "damaged",
                  "retired",
                  "lent",
                  "returned")
              .whole("pieces")
              .text("note")
              .instant("happened_at", "entered_at")
              .person("entered_by")
              .done(),
          voided("life_event", "life-events-struck-out.csv"),
          table("scope", "scopes.csv")
              .uuid()
              .code()
              .text("name")
              .words("mode", "counts", "leaves-out")
              .done(),
          table("scope_role", "scope-roles.csv")
              .key("scope_id", "role")
              .heldBy("scope_id")
              .inOrderOf("scope_id", "role")
              .refers("scope_id", "scope")
              .text("role")
              .done(),
          table("scope_line", "scope-lines.csv")
              .key("scope_id", "line_uuid")
              .heldBy("scope_id")
              .inOrderOf("scope_id", "line_uuid")
              .refers("scope_id", "scope")
              .idOf("line_uuid")
              .done(),
          table("rig", "rigs.csv")
              .uuid()
              .code()
              .text("name", "note")
              .refers("variant_of_id", "rig")
              .instant("created_at")
              .whole("revision")
              .done(),
          table("rig_line", "rig-lines.csv")
              .heldBy("rig_id", "lines")
              .uuid()
              .refers("rig_id", "rig")
              .whole("position")
              .refers("part_id", "part")
              .refers("child_rig_id", "rig")
              .whole("quantity")
              .text("role")
              .done(),
          table("rig_loads", "rig-loads.csv")
              .uuid()
              .refers("rig_id", "rig")
              .read(LOAD, "lies", "hangs")
              .read(Range::readNumber, "dynamic_allowance", "design_factor")
              .read(LENGTH, "ridge_length", "flat_length", "edge_span", "edge_sag")
              .read(LENGTH, "tree_gives", "settles")
              .whole("revision")
              .done(),
          table("rig_loads_end", "rig-load-ends.csv")
              .key("loads_id", "position")
              .heldBy("loads_id", "ends")
              .inOrderOf("loads_id", "position")
              .refers("loads_id", "rig_loads")
              .whole("position")
              .read(ANGLE, "angle")
              .read(LENGTH, "run", "rise")
              .read(ANGLE, "body_angle")
              .read(LENGTH, "bar_length", "bar_leg", "bar_apex_distance")
              .read(ANGLE, "bar_edge_angle")
              .read(LENGTH, "bar_outer_diameter", "bar_wall")
              .read(STRESS, "bar_modulus", "bar_yield")
              .done(),
          table("rig_loads_element", "rig-load-elements.csv")
              .key("loads_id", "position")
              .heldBy("loads_id", "elements")
              .inOrderOf("loads_id", "position")
              .refers("loads_id", "rig_loads")
              .whole("position")
              .refers("part_id", "part")
              .words("place", words(LoadPlace.values(), LoadPlace::word))
              .words("termination", words(Termination.values(), Termination::word))
              .read(Range::readNumber, "termination_factor")
              .text("termination_source")
              .read(Percent::parse, "breaking_stretch")
              .read(LENGTH, "length")
              .done(),
          table("set_up", "set-ups.csv")
              .uuid()
              .refers("rig_id", "rig")
              .day("hung_on")
              .read(LENGTH, "ridge_length", "ridge_mark")
              .read(ANGLE, "head_angle")
              .read(LENGTH, "head_run", "head_rise")
              .read(ANGLE, "foot_angle")
              .read(LENGTH, "foot_run", "foot_rise", "sag", "head_height", "foot_height")
              .read(LENGTH, "anchor_distance")
              .text("words")
              .yesNo("favourite")
              .whole("revision")
              .done(),
          table("trip", "trips.csv")
              .uuid()
              .code()
              .text("name")
              .day("starts")
              .whole("days")
              .massTyped("target_base")
              .read(TEMPERATURE, "coldest_night_typed")
              .text("note")
              .instant("created_at")
              .whole("revision", "afterwards_revision")
              .done(),
          table("trip_carrier", "trip-carriers.csv")
              .key("trip_id", "code")
              .heldBy("trip_id", "carriers")
              .inOrderOf("trip_id", "position", "code_key")
              .refers("trip_id", "trip")
              .whole("position")
              .code()
              .text("name")
              .massTyped("body")
              .decimal("pack_volume_ml", " [mL]")
              .typed("pack_volume_typed")
              .lengthTyped("pack_length")
              .done(),
          table("trip_line", "trip-lines.csv")
              .heldBy("trip_id", "lines")
              .uuid()
              .refers("trip_id", "trip")
              .whole("position")
              .refers("part_id", "part")
              .refers("rig_id", "rig")
              .text("item_name")
              .words("item_system", SYSTEMS)
              .massTyped("item")
              .whole("quantity")
              .words("carry", "base", "worn", "consumable")
              .text("place", "carrier")
              .words("system", SYSTEMS)
              .massTyped("per_day")
              .decimal("density_g_per_ml", " [g/mL]")
              .typed("density_typed")
              .done(),
          table("trip_line_left_at_home", "trip-left-at-home.csv")
              .key("trip_line_id", "part_id")
              .heldBy("trip_line_id")
              .inOrderOf("trip_line_id", "position", "part_id")
              .refers("trip_line_id", "trip_line")
              .whole("position")
              .refers("part_id", "part")
              .done(),
          table("trip_line_stand_in", "trip-stand-ins.csv")
              .key("trip_line_id", "position")
              .heldBy("trip_line_id")
              .inOrderOf("trip_line_id", "position")
              .refers("trip_line_id", "trip_line")
              .whole("position")
              .refers("rig_id", "rig")
              .refers("part_id", "part")
              .done(),
          table("trip_line_amount", "trip-amounts.csv")
              .key("trip_line_id", "kind", "on_day")
              .heldBy("trip_line_id")
              .inOrderOf("trip_line_id", "kind", "on_day")
              .refers("trip_line_id", "trip_line")
              .words("kind", "taken", "used")
              .whole("on_day")
              .mass("amount_ng")
              .typed("typed", "amount")
              .done(),
          table("packing_check", "packing-checks.csv")
              .key("check_key")
              .refers("trip_id", "trip")
              .whole("trip_revision")
              .idOf("line_uuid")
              .idOf("part_uuid")
              .words("state", "open", "to fetch", "packed")
              .text("check_key")
              .instant("claimed_at", "checked_at", "received_at")
              .person("checked_by")
              .done(),
          table("trip_outcome", "trip-outcomes.csv")
              .key("trip_id", "line_uuid", "part_uuid", "item_name")
              .heldBy("trip_id")
              .sortedBy("trip_id", "line_uuid", "part_uuid", "item_name")
              .refers("trip_id", "trip")
              .idOf("line_uuid")
              .idOf("part_uuid")
              .text("item_name")
              .words("outcome", "used", "not used", "missed")
              .done(),
          table("weighing", "weighings.csv")
              .uuid()
              .refers("scale_id", "scale")
              .massTyped("tolerance")
              .massTyped("tare")
              .whole("piece_count")
              .words("condition", "dry", "aired", "damp", "wet")
              .text("note")
              .instant("weighed_at", "entered_at")
              .person("entered_by")
              .done(),
          readings("reading", "weighing-readings.csv", "readings"),
          readings("before_reading", "weighing-readings-before.csv", "before"),
          table("weighing_subject", "weighing-subjects.csv")
              .key("weighing_id", "kind", "subject_id", "piece")
              .heldBy("weighing_id")
              .refers("weighing_id", "weighing")
              .words("kind", "part", "rig", "swatch", "cut-line")
              .subject()
              .whole("quantity")
              .text("piece")
              .whole("subject_revision")
              .text("scope_code")
              .yesNo("usable")
              .yesNo("together")
              .instant("weighed_at")
              .done(),
          voided("weighing", "weighings-struck-out.csv"),
          table("keyed_entry", "entry-keys.csv")
              .key("entry_key")
              .text("entry_key", "body_hash")
              .refers("weighing_id", "weighing")
              .state("answer")
              .done(),
          table("former_code", "former-codes.csv")
              .key("code_key", "kind")
              .sortedBy("kind", "code_key")
              .words("kind", "part", "rig", "trip", "material")
              .add("code_key", "code", Field.Kind.TEXT, null)
              .subject()
              .done(),
          table("revision", "revisions.csv")
              .key("subject_id", "kind", "number")
              .words(
                  "kind",
                  "part",
                  "rig",
                  "trip",
                  "afterwards",
                  "material",
                  "rig loads",
                  "set-up",
                  "settings")
              .subject()
              .whole("number")
              .state("content")
              .instant("made_at")
              .person("made_by")
              .done());

  private LedgerTables() {}

  private static Table.Builder table(String name, String file) {
    return new Table.Builder(name, file);
  }

  private static Table voided(String of, String file) {
    return table(of + "_void", file)
        .key(of + "_id")
        .inOrderOf(of + "_id")
        .refers(of + "_id", of)
        .text("reason")
        .instant("voided_at")
        .person("voided_by")
        .done();
  }

  private static Table readings(String name, String file, String as) {
    return table(name, file)
        .key("weighing_id", "position")
        .heldBy("weighing_id", as)
        .inOrderOf("weighing_id", "position")
        .refers("weighing_id", "weighing")
        .whole("position")
        .mass("reading_ng")
        .typed("typed", "reading")
        .done();
  }

  private static <T> String[] words(T[] all, Function<T, String> word) {
    return Arrays.stream(all).map(word).toArray(String[]::new);
  }

  /** The table of this name. */
  static Table named(String name) {
    return ALL.stream().filter(table -> table.name().equals(name)).findFirst().orElseThrow();
  }
}
