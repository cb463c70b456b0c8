package org.tareline.testing;

/** The two widths every page is made for. */
public enum Screen {
  /** A desk: keyboard and pointer. */
  DESK(1280, 800),
  /** A phone, the narrowest there is: touch. */
  PHONE(360, 740);

  private final int width;
  private final int height;

  Screen(int width, int height) {
    this.width = width;
    this.height = height;
  }

  public int width() {
    return width;
  }

  public int height() {
    return height;
  }
}
