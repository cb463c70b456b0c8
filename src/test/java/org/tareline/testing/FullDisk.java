package org.tareline.testing;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.util.concurrent.atomic.AtomicBoolean;
import org.h2.store.fs.FileBaseDefault;
import org.h2.store.fs.FilePath;
import org.h2.store.fs.FilePathWrapper;

/**
 * A disk that fills up, under {@code full:} before the path of an H2 file. What is written in place
 * then still succeeds; what would make a file longer does not, as on a file system with no block
 * left.
 */
public final class FullDisk extends FilePathWrapper {

  private static final String SCHEME = "full";
  private static final AtomicBoolean FULL = new AtomicBoolean();

  /** Makes the scheme known to H2, with room on the disk. */
  public static String scheme() {
    makeRoom();
    FilePath.register(new FullDisk());
    return SCHEME + ':';
  }

  public static void fillUp() {
    FULL.set(true);
  }

  public static void makeRoom() {
    FULL.set(false);
  }

  @Override
  public String getScheme() {
    return SCHEME;
  }

  @Override
  public FileChannel open(String mode) throws IOException {
    return new OnIt(getBase().open(mode));
  }

  private static final class OnIt extends FileBaseDefault {

    private final FileChannel file;

    OnIt(FileChannel file) {
      this.file = file;
    }

    @Override
    public int write(ByteBuffer bytes, long at) throws IOException {
      if (FULL.get() && at + bytes.remaining() > file.size()) {
        throw new IOException("No space left on device");
      }
      return file.write(bytes, at);
    }

    @Override
    public int read(ByteBuffer bytes, long at) throws IOException {
      return file.read(bytes, at);
    }

    @Override
    public long size() throws IOException {
      return file.size();
    }

    @Override
    protected void implTruncate(long size) throws IOException {
      file.truncate(size);
    }

    @Override
    public void force(boolean metaData) throws IOException {
      file.force(metaData);
    }

    @Override
    public FileLock tryLock(long from, long size, boolean shared) throws IOException {
      return file.tryLock(from, size, shared);
    }

    @Override
    protected void implCloseChannel() throws IOException {
      file.close();
    }
  }
}
