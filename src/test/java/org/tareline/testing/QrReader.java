package org.tareline.testing;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.LuminanceSource;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.Result;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.multi.qrcode.QRCodeMultiReader;
import java.util.Arrays;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jsoup.nodes.Element;

/**
 * Reads QR codes as a phone would: from a picture, finding the code in it.
 *
 * <p>ZXing's reader of a single code takes the first three squares that look like corners, and so
 * misses some 1 % of upright, faultless codes for good; a phone's next picture is turned a little.
 * Here, the reader that tries all that look so.
 */
public final class QrReader {

  private static final Pattern RECTANGLE = Pattern.compile("M(\\d+) (\\d+)h(\\d+)v1h-(\\d+)z");

  /** Pixels to a module. */
  private static final int SCALE = 4;

  private QrReader() {}

  /** What the code in a picture says. */
  public static String read(int width, int height, int[] pixels) {
    LuminanceSource picture = new RGBLuminanceSource(width, height, pixels);
    try {
      Result[] found =
          new QRCodeMultiReader()
              .decodeMultiple(
                  new BinaryBitmap(new HybridBinarizer(picture)),
                  Map.of(DecodeHintType.TRY_HARDER, Boolean.TRUE));
      if (found.length > 1) {
        throw new AssertionError("There are " + found.length + " QR codes in the picture");
      }
      return found[0].getText();
    } catch (NotFoundException none) {
      throw new AssertionError("There is no QR code in the picture that can be read", none);
    }
  }

  /** What the code that an SVG draws says: its path is painted, rectangle by rectangle. */
  public static String read(Element svg) {
    String[] box = svg.attr("viewBox").split(" ");
    int size = Integer.parseInt(box[2]) * SCALE;
    int[] pixels = new int[size * size];
    Arrays.fill(pixels, 0xffffff);
    String path = svg.expectFirst("path").attr("d");
    Matcher rectangle = RECTANGLE.matcher(path);
    int drawn = 0;
    while (rectangle.find()) {
      drawn += rectangle.group().length();
      int run = Integer.parseInt(rectangle.group(3));
      if (run != Integer.parseInt(rectangle.group(4))) {
        throw new AssertionError("Not closed: " + rectangle.group());
      }
      for (int y = 0; y < SCALE; y++) {
        int from = (Integer.parseInt(rectangle.group(2)) * SCALE + y) * size;
        int x = Integer.parseInt(rectangle.group(1)) * SCALE;
        Arrays.fill(pixels, from + x, from + x + run * SCALE, 0x000000);
      }
    }
    if (drawn != path.length()) {
      throw new AssertionError("Not all of the path was painted: " + path);
    }
    return read(size, size, pixels);
  }
}
