package org.understock.client;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;

/**
 * Answers in their other forms: pictures ({@code image/svg+xml}), pages ({@code text/html}) and
 * tables ({@code text/csv}), where the contract lists them beside JSON. The generated operations
 * read JSON only.
 *
 * <p>Asks as the generated operations do: by the client's address, its time limit and its
 * interceptor of requests, which is where a token goes.
 */
public final class Forms {
  private Forms() {}

  /**
   * Reads.
   *
   * @param path with its query, ready to be sent: {@code /v1/pairings/m-9/gala?units=us-customary}
   * @param type media type that is wanted, one that the contract lists for the operation
   * @return the answer as text
   * @throws ApiException when it is refused, with a problem as its body; with code 0 when there is
   *     no answer at all
   */
  public static String get(ApiClient client, String path, String type) throws ApiException {
    return sent(client, HttpRequest.newBuilder().GET(), path, type);
  }

  /**
   * Asks with a body: a plan as a picture, say.
   *
   * @param body one of the generated models
   * @see #get
   */
  public static String post(ApiClient client, String path, Object body, String type)
      throws ApiException {
    byte[] json;
    try {
      json = client.getObjectMapper().writeValueAsBytes(body);
    } catch (IOException e) {
      throw new ApiException(e);
    }
    return sent(
        client,
        HttpRequest.newBuilder()
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofByteArray(json)),
        path,
        type);
  }

  private static String sent(
      ApiClient client, HttpRequest.Builder request, String path, String type) throws ApiException {
    request
        .uri(URI.create(client.getBaseUri() + path))
        .header("Accept", type + ", application/problem+json");
    if (client.getReadTimeout() != null) request.timeout(client.getReadTimeout());
    if (client.getRequestInterceptor() != null) client.getRequestInterceptor().accept(request);
    try {
      HttpResponse<String> answer =
          client
              .getHttpClient()
              .send(request.build(), HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
      if (answer.statusCode() / 100 != 2)
        throw new ApiException(
            answer.statusCode(), "refused: " + path, answer.headers(), answer.body());
      return answer.body();
    } catch (IOException e) {
      throw new ApiException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new ApiException(e);
    }
  }
}
