package org.understock.service.card;

import java.util.List;
import org.springframework.http.MediaType;
import org.understock.service.drawing.Pictures;
import org.understock.site.Word;

/** The forms of a card, in the order in which they are offered. */
enum Form implements Word {
  JSON(MediaType.APPLICATION_JSON),
  HTML(new MediaType(MediaType.TEXT_HTML, java.nio.charset.StandardCharsets.UTF_8)),
  SVG(Pictures.TYPE);

  static final List<MediaType> OFFERED =
      List.of(MediaType.APPLICATION_JSON, MediaType.TEXT_HTML, Pictures.TYPE);

  final MediaType type;

  Form(MediaType type) {
    this.type = type;
  }
}
