package org.understock.service.curation;

import org.slf4j.MDC;
import org.understock.service.security.Actor;

/**
 * Who does something, and in answer to which request.
 *
 * @param actor subject of the token
 * @param request id of the request, as in the log and in problems
 */
record Deed(String actor, String request) {
  static Deed of(Actor actor) {
    String request = MDC.get("requestId");
    return new Deed(actor.subject(), request == null ? "" : request);
  }
}
