package org.understock.service.problem;

import io.swagger.v3.oas.annotations.Hidden;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** Pages that say what each type of problem means and what to do. */
@Hidden
@RestController
class ProblemPages {
  @GetMapping(path = "/problems", produces = MediaType.TEXT_HTML_VALUE)
  ResponseEntity<String> all() {
    String list =
        Arrays.stream(ProblemType.values())
            .filter(t -> t != ProblemType.INVALID_REQUEST)
            .map(
                t ->
                    "<li><a href=\""
                        + t.address()
                        + "\">"
                        + t.title()
                        + "</a> ("
                        + t.slug()
                        + ")</li>")
            .collect(Collectors.joining("\n"));
    return page("Problems", "<ul>\n" + list + "\n</ul>");
  }

  @GetMapping(path = "/problems/{slug}", produces = MediaType.TEXT_HTML_VALUE)
  ResponseEntity<String> one(@PathVariable String slug) {
    ProblemType type =
        Arrays.stream(ProblemType.values())
            .filter(t -> t.slug().equals(slug))
            .findFirst()
            .orElseThrow(
                () ->
                    ProblemException.of(
                        ProblemType.NOT_FOUND,
                        "No problem is called '" + Texts.cut(slug, 60) + "'.",
                        List.of()));
    return page(
        type.title(),
        "<p>"
            + type.meaning()
            + "</p>\n<p>"
            + type.cure()
            + "</p>\n<p><a href=\"/problems\">All problems</a></p>");
  }

  private static ResponseEntity<String> page(String title, String body) {
    String html =
        """
        <!doctype html>
        <html lang="en">
        <meta charset="utf-8">
        <title>%1$s</title>
        <h1>%1$s</h1>
        %2$s
        </html>
        """
            .formatted(title, body);
    return ResponseEntity.ok()
        .cacheControl(CacheControl.maxAge(1, TimeUnit.DAYS).cachePublic())
        .header("Content-Security-Policy", "default-src 'none'")
        .body(html);
  }
}
