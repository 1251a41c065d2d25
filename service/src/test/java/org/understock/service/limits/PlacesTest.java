package org.understock.service.limits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;
import org.understock.service.problem.ProblemException;

/** How many bodies are waited for, and whose. */
class PlacesTest {
  private static final byte[] BUFFER = new byte[16];

  /** A body of which nothing comes before it is let go. */
  private static final class Late extends InputStream {
    private final CountDownLatch reading = new CountDownLatch(1);
    private final CountDownLatch letGo = new CountDownLatch(1);

    @Override
    public int read() throws IOException {
      reading.countDown();
      try {
        letGo.await();
      } catch (InterruptedException e) {
        throw new IOException(e);
      }
      return -1;
    }
  }

  private final List<Late> late = new ArrayList<>();
  private final List<Thread> waiting = new ArrayList<>();

  private void waitsFrom(Places places, String address) throws InterruptedException {
    Late body = new Late();
    Thread thread =
        new Thread(
            () -> {
              try {
                places.body(body, address).read(new byte[1], 0, 1);
              } catch (IOException e) {
                throw new AssertionError(e);
              }
            });
    thread.start();
    body.reading.await();
    late.add(body);
    waiting.add(thread);
  }

  private void letGo() throws InterruptedException {
    for (Late body : late) body.letGo.countDown();
    for (Thread thread : waiting) thread.join();
  }

  private static int read(Places places, InputStream body, String address) throws IOException {
    return places.body(body, address).read(BUFFER, 0, BUFFER.length);
  }

  @Test
  void one_client_has_an_eighth_of_the_threads_and_all_have_half() throws Exception {
    Places places = new Places(16, Duration.ofHours(1));
    waitsFrom(places, "192.0.2.1");
    waitsFrom(places, "192.0.2.1");
    assertThatThrownBy(() -> read(places, new Late(), "192.0.2.1"))
        .isInstanceOf(ProblemException.class);
    for (int i = 0; i < 6; i++) waitsFrom(places, "192.0.2.1" + i);
    assertThatThrownBy(() -> read(places, new Late(), "192.0.2.2"))
        .isInstanceOf(ProblemException.class);
    assertThat(read(places, new ByteArrayInputStream(new byte[5]), "192.0.2.1"))
        .as("what has come needs no place")
        .isEqualTo(5);
    letGo();
    waitsFrom(places, "192.0.2.1");
    letGo();
  }

  @Test
  void a_body_is_to_come_at_a_kilobyte_a_second_after_the_grace() throws Exception {
    byte[] ten = new byte[10];
    assertThat(read(new Places(8, Duration.ofHours(1)), new ByteArrayInputStream(ten), "a"))
        .isEqualTo(10);
    InputStream slow =
        new ByteArrayInputStream(ten) {
          @Override
          public synchronized int read(byte[] into, int offset, int length) {
            long until = System.nanoTime() + 30_000_000;
            while (System.nanoTime() < until) Thread.onSpinWait();
            return super.read(into, offset, length);
          }
        };
    assertThatThrownBy(() -> read(new Places(8, Duration.ZERO), slow, "a"))
        .isInstanceOf(ProblemException.class);
  }
}
