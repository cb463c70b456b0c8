package org.tareline.exchange;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/**
 * The states that a ledger keeps of its things, as JSON. In the database a thing stands in them by
 * the database's own id, in a file by its uuid: {@code "partId":24} and {@code "partId":"part
 * 3f0c…"}. Within a text of the JSON a quotation mark is escaped, so that nothing a person typed is
 * taken for either.
 */
final class KeptStates {

  private static final Pattern BY_ID = Pattern.compile("\"(part|rig|material)Id\":(\\d{1,18})");
  private static final Pattern BY_UUID =
      Pattern.compile("\"(part|rig|material)Id\":\"\\1 ([0-9a-f-]{36})\"");

  /** A thing with both, as a trip has it: {@code {"id":24,"uuid":"3f0c…","code":…}}. */
  private static final Pattern NAMED_BY_ID =
      Pattern.compile("\\{\"id\":\\d{1,18},\"uuid\":\"([0-9a-f-]{36})\"");

  private static final Pattern NAMED_BY_UUID =
      Pattern.compile("\\{\"id\":null,\"uuid\":\"([0-9a-f-]{36})\"");

  private static final JsonMapper JSON = new JsonMapper();

  private final Map<String, Map<Long, UUID>> uuids = new HashMap<>();

  /** Those of a ledger as it is now. */
  static KeptStates of(Connection connection, long ledger) throws SQLException {
    KeptStates states = new KeptStates();
    for (String table : new String[] {"part", "rig", "material"}) {
      Map<Long, UUID> all = new HashMap<>();
      try (PreparedStatement statement =
          connection.prepareStatement("select id, uuid from " + table + " where ledger_id = ?")) {
        statement.setLong(1, ledger);
        try (ResultSet found = statement.executeQuery()) {
          while (found.next()) {
            all.put(found.getLong(1), found.getObject(2, UUID.class));
          }
        }
      }
      states.uuids.put(table, all);
    }
    return states;
  }

  /** Such a state as it stands in a file; a thing that is no more stands there by nothing. */
  @Nullable String byUuid(@Nullable String state) {
    if (state == null) {
      return null;
    }
    String named = NAMED_BY_ID.matcher(state).replaceAll("{\"id\":null,\"uuid\":\"$1\"");
    return BY_ID
        .matcher(named)
        .replaceAll(
            found -> {
              String kind = found.group(1);
              UUID uuid = uuids.getOrDefault(kind, Map.of()).get(Long.valueOf(found.group(2)));
              return "\""
                  + kind
                  + "Id\":"
                  + (uuid == null ? "null" : "\"" + kind + " " + uuid + "\"");
            });
  }

  /**
   * Such a state as it stands in the database.
   *
   * @param ids finds the id of a thing by its kind and uuid; null where it is not known
   * @throws Field.Unreadable if it names a thing that is not there
   */
  static String byId(String state, BiFunction<String, UUID, @Nullable Long> ids) {
    refuseWhatIsNoState(state);
    String byId =
        BY_UUID
            .matcher(state)
            .replaceAll(
                found ->
                    "\""
                        + found.group(1)
                        + "Id\":"
                        + id(ids, found, found.group(2), found.group(1)));
    return NAMED_BY_UUID
        .matcher(byId)
        .replaceAll(
            found ->
                Matcher.quoteReplacement(
                    "{\"id\":"
                        + id(ids, found, found.group(1), "part", "rig")
                        + ",\"uuid\":\""
                        + found.group(1)
                        + "\""));
  }

  private static void refuseWhatIsNoState(String state) {
    try {
      if (JSON.readTree(state).isContainer()) {
        return;
      }
    } catch (JacksonException unreadable) {
      // As a bare word or number is.
    }
    throw new Field.Unreadable("Give a state as JSON, as an export has it.");
  }

  private static long id(
      BiFunction<String, UUID, @Nullable Long> ids,
      MatchResult found,
      String uuid,
      String... kinds) {
    for (String kind : kinds) {
      Long id = ids.apply(kind, UUID.fromString(uuid));
      if (id != null) {
        return id;
      }
    }
    throw new Field.Unreadable("It names a thing that is not in this ledger: " + found.group());
  }
}
