package org.understock.service.platform;

import java.io.ByteArrayOutputStream;
import java.io.Flushable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * Cuts a stream of text into lines and keeps no more of it than one line and a buffer, however long
 * stream and lines are. Of a line beyond the limit only the length is known; what follows it is
 * read on.
 */
public final class Lines {
  private static final int BUFFER_BYTES = 1 << 14;
  private static final char BYTE_ORDER_MARK = '\uFEFF';

  private final InputStream in;
  private final int longest;
  private final Flushable beforeWaiting;
  private final byte[] buffer = new byte[BUFFER_BYTES];
  private final ByteArrayOutputStream line = new ByteArrayOutputStream();
  private int at;
  private int filled;
  private long number;

  /**
   * @param longest most bytes of a line, its end not counted
   * @param beforeWaiting called whenever nothing more is at hand and the sender has to be waited
   *     for: the moment to let go of what was held back for him
   */
  public Lines(InputStream in, int longest, Flushable beforeWaiting) {
    this.in = in;
    this.longest = longest;
    this.beforeWaiting = beforeWaiting;
  }

  /**
   * One line.
   *
   * @param number from 1; empty lines count
   * @param length in bytes, without the line's end
   * @param bytes null when the line is longer than the limit
   */
  @SuppressWarnings("ArrayRecordComponent") // handed on once, never compared
  public record Line(long number, long length, byte @Nullable [] bytes) {
    /**
     * The line's text without white space around it; a byte order mark at the stream's beginning is
     * passed over.
     *
     * @throws CharacterCodingException when it is not UTF-8
     */
    public String text() throws CharacterCodingException {
      if (bytes == null) throw new IllegalStateException("line " + number + " is too long");
      String text =
          StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString().strip();
      return number == 1 && !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK
          ? text.substring(1).strip()
          : text;
    }
  }

  /** The next line; null after the last. The last one needs no line end. */
  public @Nullable Line next() throws IOException {
    line.reset();
    long length = 0;
    boolean begun = false;
    while (fill()) {
      begun = true;
      int from = at;
      while (at < filled && buffer[at] != '\n') at++;
      length += at - from;
      if (length <= longest) line.write(buffer, from, at - from);
      if (at < filled) {
        at++;
        return line(length);
      }
    }
    return begun ? line(length) : null;
  }

  /** Number of the line that was read last, or is being read. */
  public long number() {
    return number;
  }

  private Line line(long length) {
    return new Line(++number, length, length <= longest ? line.toByteArray() : null);
  }

  private boolean fill() throws IOException {
    if (at < filled) return true;
    if (in.available() == 0) beforeWaiting.flush();
    at = 0;
    filled = Math.max(0, in.read(buffer));
    return filled > 0;
  }
}
