package org.understock.service.limits;

import java.io.IOException;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.coyote.Adapter;
import org.apache.coyote.Processor;
import org.apache.coyote.http11.Http11NioProtocol;
import org.apache.coyote.http11.Http11Processor;
import org.apache.tomcat.util.net.AbstractEndpoint.Handler.SocketState;
import org.apache.tomcat.util.net.SocketWrapperBase;

/**
 * Tomcat's protocol with a limit on the time that the head of a request may take, and on how many
 * heads may be there by half. Tomcat itself only limits the silence between two bytes, so that
 * whoever sends a byte now and then keeps a connection for ever; and each head that has begun holds
 * buffers of some 45 kB, so that six thousand of them are more than the heap. Made by Tomcat from
 * its class name, so public.
 */
public final class TimedHeaders extends Http11NioProtocol {
  private final Set<TimedProcessor> begun = ConcurrentHashMap.newKeySet();

  /** What is used until it is set. */
  private volatile long nanos = Duration.ofSeconds(10).toNanos();

  private volatile int most = 1000;

  void limitTo(Duration time, int many) {
    nanos = time.toNanos();
    most = many;
  }

  @Override
  protected Processor createProcessor() {
    return new TimedProcessor(getAdapter());
  }

  private boolean mayWait(TimedProcessor head) {
    if (begun.size() >= most) begun.removeIf(TimedProcessor::isOver);
    return begun.size() < most && begun.add(head);
  }

  private final class TimedProcessor extends Http11Processor {
    TimedProcessor(Adapter adapter) {
      super(TimedHeaders.this, adapter);
    }

    /** Called whenever bytes have come; what comes too late is looked at with the next of them. */
    @Override
    public SocketState service(SocketWrapperBase<?> socket) throws IOException {
      begun.remove(this);
      SocketState state = super.service(socket);
      long since = request.getStartTimeNanos();
      boolean blankLinesOnly = state == SocketState.OPEN && since != -1;
      boolean partOfHead = state == SocketState.LONG && !isAsync();
      if (!blankLinesOnly && !partOfHead) return state;
      // Tomcat would forget that empty lines came, and begin to count anew with each.
      return System.nanoTime() - since <= nanos && mayWait(this)
          ? SocketState.LONG
          : SocketState.CLOSED;
    }

    /** Its connection has ended otherwise, by a time-out or the client: the processor is idle. */
    boolean isOver() {
      return getSocketWrapper() == null;
    }
  }
}
