package org.tareline.site;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import java.util.Map;

/**
 * A text as a QR code (ISO/IEC 18004), to be drawn: a square of modules, and the dark ones as one
 * path of SVG in which a module is one unit long.
 *
 * @param size of the square, with the quiet zone around it, in modules
 * @param path of the dark modules
 */
public record QrCode(int size, String path) {

  /** Modules left light all around, without which nothing finds the code (ISO/IEC 18004). */
  private static final int QUIET_ZONE = 4;

  /**
   * The code for a text, mended where up to about 15 % of it is soiled or torn (level M).
   *
   * @param text an address; at most some 300 characters fit so that a label can still be read
   * @throws IllegalArgumentException if it is empty, or longer than any QR code holds
   */
  public static QrCode of(String text) {
    try {
      BitMatrix modules =
          new QRCodeWriter()
              .encode(
                  text,
                  BarcodeFormat.QR_CODE,
                  0,
                  0,
                  Map.of(
                      EncodeHintType.MARGIN,
                      QUIET_ZONE,
                      EncodeHintType.ERROR_CORRECTION,
                      ErrorCorrectionLevel.M));
      return new QrCode(modules.getWidth(), path(modules));
    } catch (WriterException tooLong) {
      throw new IllegalArgumentException(
          "no QR code holds " + text.length() + " characters", tooLong);
    }
  }

  /** Each run of dark modules in a row as one rectangle. */
  private static String path(BitMatrix modules) {
    StringBuilder path = new StringBuilder();
    for (int y = 0; y < modules.getHeight(); y++) {
      int x = 0;
      while (x < modules.getWidth()) {
        int from = x;
        while (x < modules.getWidth() && modules.get(x, y)) {
          x++;
        }
        if (x > from) {
          int run = x - from;
          path.append('M').append(from).append(' ').append(y);
          path.append('h').append(run).append("v1h-").append(run).append('z');
        }
        x++;
      }
    }
    return path.toString();
  }
}
