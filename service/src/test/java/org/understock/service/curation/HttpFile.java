package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tools.jackson.databind.json.JsonMapper;

/**
 * Sends the requests of a {@code .http} file, top to bottom, and copies values out of the answers
 * where a comment asks the reader to.
 */
final class HttpFile {
  private static final Pattern VARIABLE = Pattern.compile("@(\\w+) =(.*)");
  private static final Pattern USE = Pattern.compile("\\{\\{(\\w+)}}");
  private static final Pattern COPY =
      Pattern.compile(
          "# Copy (?:the first \"(\\w+)\"|the header (\\w+)) of the answer to @(\\w+)\\.");

  private final Map<String, String> variables = new HashMap<>();
  private final List<List<String>> requests = new ArrayList<>();

  /** One request that was sent, without its values, and what came back. */
  record Exchange(String method, String path, int status, String body) {}

  HttpFile(Path file) throws IOException {
    for (String line : Files.readAllLines(file)) {
      Matcher variable = VARIABLE.matcher(line);
      if (line.startsWith("###")) {
        requests.add(new ArrayList<>());
      } else if (!requests.isEmpty()) {
        requests.get(requests.size() - 1).add(line);
      } else if (variable.matches()) {
        variables.put(variable.group(1), variable.group(2).strip());
      }
    }
  }

  /** Fills in what the reader would. */
  HttpFile with(String variable, String value) {
    assertThat(variables).containsKey(variable);
    variables.put(variable, value);
    return this;
  }

  List<Exchange> send() throws IOException, InterruptedException {
    List<Exchange> exchanges = new ArrayList<>();
    for (List<String> request : requests) exchanges.add(send(request));
    return exchanges;
  }

  private Exchange send(List<String> lines) throws IOException, InterruptedException {
    List<String> comments = lines.stream().takeWhile(line -> line.startsWith("#")).toList();
    List<String> told = lines.subList(comments.size(), lines.size());
    int blank = told.indexOf("");
    List<String> head = told.subList(0, blank < 0 ? told.size() : blank);
    String body = String.join("\n", told.subList(head.size(), told.size())).strip();
    String[] asked = head.get(0).split(" ");
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(filled(asked[1])))
            .method(asked[0], HttpRequest.BodyPublishers.ofString(filled(body)));
    for (String header : head.subList(1, head.size())) {
      String[] parts = header.split(": ", 2);
      request.header(parts[0], filled(parts[1]));
    }
    HttpResponse<String> answer =
        HttpClient.newHttpClient().send(request.build(), HttpResponse.BodyHandlers.ofString());
    assertThat(answer.statusCode()).as(head.get(0) + "\n" + answer.body()).isBetween(200, 299);
    for (String comment : comments) copy(comment, answer);
    return new Exchange(
        asked[0], asked[1].replace("{{base}}", ""), answer.statusCode(), answer.body());
  }

  private void copy(String comment, HttpResponse<String> answer) {
    Matcher copy = COPY.matcher(comment);
    assertThat(copy.matches()).as(comment).isTrue();
    with(
        copy.group(3),
        copy.group(1) == null
            ? answer.headers().firstValue(copy.group(2)).orElseThrow()
            : JsonMapper.shared().readTree(answer.body()).findValue(copy.group(1)).asString());
  }

  private String filled(String text) {
    return USE.matcher(text)
        .replaceAll(
            use -> {
              String value = variables.getOrDefault(use.group(1), "");
              assertThat(value).as(use.group()).isNotEmpty();
              return Matcher.quoteReplacement(value);
            });
  }
}
