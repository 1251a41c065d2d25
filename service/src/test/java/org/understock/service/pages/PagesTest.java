package org.understock.service.pages;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.net.URI;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;

/** Walks from page to page as a reader does: every link leads somewhere, every page is whole. */
class PagesTest extends RunningService {
  private static final Pattern LINK =
      Pattern.compile("(?:href|src)=\"(?!data:)([^\"#]*)(?:#([^\"]*))?\"");

  @Test
  void every_link_of_every_page_leads_somewhere() {
    Map<URI, Response> seen = new LinkedHashMap<>();
    List<String> dead = new ArrayList<>();
    Deque<URI> next = new ArrayDeque<>(List.of(URI.create("/docs/index.html")));
    while (!next.isEmpty()) {
      URI at = next.poll();
      if (seen.containsKey(at)) continue;
      Response page = given().urlEncodingEnabled(false).get(at.toString());
      seen.put(at, page);
      if (page.statusCode() != 200) dead.add(at + " answers " + page.statusCode());
      if (page.statusCode() != 200 || !at.getPath().matches("/docs/.*\\.html")) continue;
      assertThat(page.header("Content-Security-Policy"))
          .contains("style-src 'self'")
          .doesNotContain("unsafe");
      for (Matcher link = LINK.matcher(page.asString()); link.find(); ) {
        String to = link.group(1).replace("&amp;", "&");
        assertThat(to).as("%s stays on this service", at).doesNotContain("//");
        if (!to.isEmpty()) next.add(at.resolve(to));
        else if (!page.asString().contains("id=\"" + link.group(2) + "\""))
          dead.add(at + " has no " + link.group(2));
      }
    }
    assertThat(dead).isEmpty();
    assertThat(seen.get(URI.create("/docs/reference/index.html")).asString())
        .as("made from the contract")
        .contains("id=\"advise\"", "id=\"AdviceRequest\"", "<code>coldestNightC</code>")
        .as("with examples, defaults, limits and the scope that is asked for")
        .contains("A small garden, one variety in mind", "\"coldestNightC\" : -18")
        .contains("Most items in the page. From 1. To 200. Unless sent: <code>50</code>.")
        .contains("Asks for a token with <code>evidence:review</code>")
        .doesNotContain("<code>null</code>", "At least 0 of them");
    assertThat(seen.keySet().stream().filter(at -> at.getPath().startsWith("/docs/")))
        .as("pages, their look and their pictures")
        .hasSizeGreaterThanOrEqualTo(8);
  }
}
