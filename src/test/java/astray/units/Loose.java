package astray.units;

import java.time.Instant;
import java.util.Locale;
import java.util.function.Supplier;
import org.slf4j.LoggerFactory;

/** In the core, yet it asks the machine for its language and its time, and writes a log. */
class Loose {

  final Supplier<Instant> clock = Instant::now;

  String shown(double grams) {
    return String.format("%.1f g", grams).toLowerCase();
  }

  String right(double grams) {
    return String.format(Locale.ROOT, "%.1f g", grams).toLowerCase(Locale.ROOT);
  }

  void noted() {
    LoggerFactory.getLogger(Loose.class).warn("an import the core may not have");
  }
}
