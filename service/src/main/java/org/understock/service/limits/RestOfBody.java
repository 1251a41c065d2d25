package org.understock.service.limits;

import jakarta.servlet.ServletException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.util.Set;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ValveBase;
import org.apache.coyote.ActionCode;
import org.apache.tomcat.util.net.ApplicationBufferHandler;
import org.springframework.http.HttpHeaders;
import org.understock.service.problem.ProblemException;

/**
 * Reads what is left of a body that was answered without being read, within the limits that hold
 * for one that is read. Tomcat would wait for it for as long as a byte comes now and then, and a
 * thread with it.
 */
final class RestOfBody extends ValveBase {
  /** Said of a body that is not waited for. */
  private static final Set<Integer> NOT_AWAITED = Set.of(408, 503);

  private final Places places;
  private final long mostBytes;

  RestOfBody(Places places, long mostBytes) {
    super(true);
    this.places = places;
    this.mostBytes = mostBytes;
  }

  @Override
  public void invoke(Request request, Response response) throws IOException, ServletException {
    getNext().invoke(request, response);
    if (request.isAsync() || request.isFinished()) return;
    boolean asked = request.getHeader(HttpHeaders.EXPECT) != null;
    if (asked && response.getStatus() / 100 != 2) return; // it was told not to send the body
    response.finishResponse(); // whoever waits for it with the rest has it
    /* Tomcat hangs up by itself only where neither side has said that it will. */
    if (NOT_AWAITED.contains(response.getStatus()) || !comes(request))
      request.getCoyoteRequest().action(ActionCode.DISABLE_SWALLOW_INPUT, null);
  }

  private boolean comes(Request request) {
    try {
      Rest rest = new Rest(request.getCoyoteRequest());
      Places.Body body = places.body(rest, request.getRemoteAddr());
      byte[] nowhere = new byte[0];
      while (body.read(nowhere, 0, 0) >= 0) if (body.read() > mostBytes) return false;
      return true;
    } catch (IOException | ProblemException e) {
      return false;
    }
  }

  /** What comes, which is dropped; the application's own stream is closed by now. */
  private static final class Rest extends InputStream implements ApplicationBufferHandler {
    private final org.apache.coyote.Request request;
    private ByteBuffer came = ByteBuffer.allocate(0);

    Rest(org.apache.coyote.Request request) {
      this.request = request;
    }

    @Override
    public int read() throws IOException {
      return request.doRead(this) < 0 ? -1 : 0;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
      return request.doRead(this);
    }

    @Override
    public int available() {
      request.action(ActionCode.AVAILABLE, false);
      return request.getAvailable();
    }

    @Override
    public void setByteBuffer(ByteBuffer buffer) {
      came = buffer;
    }

    @Override
    public ByteBuffer getByteBuffer() {
      return came;
    }

    @Override
    public void expand(int size) {
      // the bytes stay in Tomcat's own buffer
    }
  }
}
