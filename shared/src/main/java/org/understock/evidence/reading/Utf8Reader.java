package org.understock.evidence.reading;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Decodes UTF-8 without guessing: a byte that is not UTF-8 becomes U+FFFD, and its place is
 * remembered, so that the row that holds it can be refused by line and byte while the others are
 * read. A byte-order mark at the head is passed over.
 */
final class Utf8Reader extends Reader {
  private static final int REMEMBERED = 1000;

  private final InputStream in;
  private final CharsetDecoder decoder =
      StandardCharsets.UTF_8
          .newDecoder()
          .onMalformedInput(CodingErrorAction.REPORT)
          .onUnmappableCharacter(CodingErrorAction.REPORT);
  private final ByteBuffer bytes = ByteBuffer.allocate(16384).flip();
  private final CharBuffer chars = CharBuffer.allocate(16384).flip();
  private final TreeMap<Long, String> faults = new TreeMap<>();
  private final boolean utf16;
  private long consumed;
  private long line = 1;
  private boolean afterReturn;
  private boolean ended;

  Utf8Reader(InputStream in) throws IOException {
    this.in = in;
    fill();
    int first = bytes.remaining() < 2 ? 0 : (bytes.get(0) & 0xFF) << 8 | bytes.get(1) & 0xFF;
    utf16 = first == 0xFEFF || first == 0xFFFE;
    boolean mark =
        bytes.remaining() >= 3
            && (bytes.get(0) & 0xFF) == 0xEF
            && (bytes.get(1) & 0xFF) == 0xBB
            && (bytes.get(2) & 0xFF) == 0xBF;
    if (mark) skip(3);
  }

  /** Whether the file begins with the byte-order mark of UTF-16. */
  boolean utf16() {
    return utf16;
  }

  /**
   * The first byte that is not UTF-8 in some lines, in words; null when none is remembered there.
   */
  @Nullable String fault(long fromLine, long toLine) {
    Map.Entry<Long, String> fault = faults.ceilingEntry(fromLine);
    return fault == null || fault.getKey() > toLine ? null : fault.getValue();
  }

  @Override
  public int read(char[] into, int offset, int length) throws IOException {
    if (length == 0) return 0;
    while (!chars.hasRemaining()) if (!decode()) return -1;
    int n = Math.min(length, chars.remaining());
    chars.get(into, offset, n);
    return n;
  }

  /** Decodes what is at hand. @return false when the text is at its end */
  private boolean decode() throws IOException {
    if (ended && !bytes.hasRemaining()) return false;
    chars.clear().limit(chars.capacity() - 1); // one left for a replacement
    int before = bytes.position();
    CoderResult result = decoder.decode(bytes, chars, ended);
    consumed += bytes.position() - before;
    countLines();
    if (result.isError()) {
      remember(result.length());
      chars.limit(chars.capacity());
      chars.put('\uFFFD');
      skip(result.length());
    } else if (result.isUnderflow() && !ended) {
      fill();
    }
    chars.flip();
    return true;
  }

  private void fill() throws IOException {
    bytes.compact();
    while (bytes.hasRemaining()) {
      int n = in.read(bytes.array(), bytes.position(), bytes.remaining());
      if (n < 0) {
        ended = true;
        break;
      }
      bytes.position(bytes.position() + n);
    }
    bytes.flip();
  }

  private void skip(int n) {
    bytes.position(bytes.position() + n);
    consumed += n;
  }

  private void countLines() {
    for (int i = 0; i < chars.position(); i++) {
      char c = chars.get(i);
      if (c == '\r' || c == '\n' && !afterReturn) line++;
      afterReturn = c == '\r';
    }
  }

  private void remember(int length) {
    if (faults.size() >= REMEMBERED) return;
    StringBuilder hex = new StringBuilder();
    for (int i = 0; i < length; i++)
      hex.append(
          String.format("%s0x%02X", i == 0 ? "" : " ", bytes.get(bytes.position() + i) & 0xFF));
    faults.putIfAbsent(
        line, "byte " + (consumed + 1) + " of the file, on line " + line + ", is " + hex);
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
