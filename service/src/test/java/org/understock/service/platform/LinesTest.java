package org.understock.service.platform;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Lines as cut from streams, against the JDK's own way of cutting a text. */
class LinesTest {
  private static final int LONGEST = 40;

  private static List<Lines.Line> all(InputStream in) throws IOException {
    Lines lines = new Lines(in, LONGEST, () -> {});
    List<Lines.Line> all = new ArrayList<>();
    for (Lines.Line line = lines.next(); line != null; line = lines.next()) all.add(line);
    return all;
  }

  private static List<Lines.Line> all(String text) throws IOException {
    return all(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
  }

  /** Seeded texts, given in pieces of random length, as a network would. */
  @Test
  void any_text_is_cut_as_the_jdk_cuts_it() throws IOException {
    Random random = new Random(20261128);
    for (int i = 0; i < 300; i++) {
      StringBuilder text = new StringBuilder();
      for (int k = random.nextInt(40); k > 0; k--) {
        text.append("äxy".repeat(random.nextInt(random.nextInt(20) == 0 ? 20_000 : 12)));
        text.append('\n');
      }
      if (random.nextBoolean()) text.append("the end");
      List<String> expected = text.toString().lines().toList();
      List<Lines.Line> cut = all(new Pieces(text.toString(), random));
      assertThat(cut).hasSameSizeAs(expected);
      for (int k = 0; k < cut.size(); k++) {
        byte[] bytes = expected.get(k).getBytes(StandardCharsets.UTF_8);
        assertThat(cut.get(k).number()).isEqualTo(k + 1);
        assertThat(cut.get(k).length()).isEqualTo(bytes.length);
        if (bytes.length > LONGEST) assertThat(cut.get(k).bytes()).isNull();
        else assertThat(cut.get(k).text()).isEqualTo(expected.get(k));
      }
    }
  }

  @Test
  void ends_marks_and_white_space() throws IOException {
    assertThat(all("")).isEmpty();
    assertThat(all("\n")).hasSize(1);
    assertThat(all("\uFEFF a \r\n\tb\r\n").stream().map(LinesTest::text)).containsExactly("a", "b");
    assertThat(all("a\n\uFEFFb").get(1).text()).isEqualTo("\uFEFFb");
    Lines.Line broken = all(new ByteArrayInputStream(new byte[] {'a', (byte) 0xff})).get(0);
    assertThatThrownBy(broken::text).isInstanceOf(CharacterCodingException.class);
  }

  @Test
  void the_sender_is_waited_for_only_after_what_was_held_back_is_let_go() throws IOException {
    List<String> order = new ArrayList<>();
    InputStream slow =
        new InputStream() {
          private int asked;

          @Override
          public int read() {
            throw new UnsupportedOperationException();
          }

          @Override
          public int read(byte[] into, int offset, int length) {
            order.add("read");
            if (asked++ > 0) return -1;
            into[offset] = 'a';
            into[offset + 1] = '\n';
            return 2;
          }
        };
    Lines lines = new Lines(slow, LONGEST, () -> order.add("let go"));
    assertThat(lines.next()).isNotNull();
    assertThat(lines.next()).isNull();
    assertThat(order).containsExactly("let go", "read", "let go", "read");
  }

  private static String text(Lines.Line line) {
    try {
      return line.text();
    } catch (CharacterCodingException e) {
      throw new AssertionError(e);
    }
  }

  private static final class Pieces extends ByteArrayInputStream {
    private final Random random;

    Pieces(String text, Random random) {
      super(text.getBytes(StandardCharsets.UTF_8));
      this.random = random;
    }

    @Override
    public synchronized int read(byte[] into, int offset, int length) {
      return super.read(into, offset, Math.min(length, 1 + random.nextInt(50)));
    }
  }
}
