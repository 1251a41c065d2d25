package org.understock.service.card;

import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.understock.service.drawing.Drawing;
import org.understock.wording.Words;

/**
 * A finished page.
 *
 * @param html the whole page; well-formed XML but for its first line
 * @param policy content security policy: nothing may be loaded or run, and only the page's own
 *     style sheet counts
 */
record Page(String html, String policy) {

  /**
   * Writes one page, element by element. Whatever text is given comes out as text, without what XML
   * cannot carry.
   */
  static final class Writer {
    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;
    private final String style;

    /**
     * Begins a page and its body.
     *
     * @param words whose language the page is in
     * @param style the style sheet, without characters that are special in XML
     */
    Writer(Words words, String title, String style) {
      if (style.matches("(?s).*[<>&].*"))
        throw new IllegalArgumentException("a style sheet may not hold <, > or &");
      this.style = style;
      try {
        xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
      } catch (XMLStreamException e) {
        throw impossible(e);
      }
      open("html", "lang", words.language().tag());
      open("head");
      empty("meta", "charset", "utf-8");
      empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
      put("title", title);
      put("style", style);
      close();
      open("body");
    }

    /** Opens an element; attributes are pairs of a name and a value. */
    Writer open(String element, String... attributes) {
      try {
        xml.writeStartElement(element);
        return attributes(attributes);
      } catch (XMLStreamException e) {
        throw impossible(e);
      }
    }

    /** Closes the element opened last. */
    Writer close() {
      try {
        xml.writeCharacters(""); // an element without content still gets its end tag
        xml.writeEndElement();
        return this;
      } catch (XMLStreamException e) {
        throw impossible(e);
      }
    }

    /** An element with a text. */
    Writer put(String element, String content, String... attributes) {
      return open(element, attributes).text(content).close();
    }

    Writer text(String content) {
      try {
        xml.writeCharacters(Drawing.clean(content));
        return this;
      } catch (XMLStreamException e) {
        throw impossible(e);
      }
    }

    /** An element that never has content, such as {@code meta}. */
    Writer empty(String element, String... attributes) {
      try {
        xml.writeEmptyElement(element);
        return attributes(attributes);
      } catch (XMLStreamException e) {
        throw impossible(e);
      }
    }

    /** A finished picture. */
    Writer picture(String svg) {
      try {
        xml.writeCharacters("");
        xml.flush();
        text.write(svg.strip());
        return this;
      } catch (XMLStreamException e) {
        throw impossible(e);
      }
    }

    private Writer attributes(String... pairs) throws XMLStreamException {
      for (int k = 0; k < pairs.length; k += 2)
        xml.writeAttribute(pairs[k], Drawing.clean(pairs[k + 1]));
      return this;
    }

    /** Closes body and page. */
    Page finish() {
      close();
      close();
      try {
        xml.flush();
        byte[] hash =
            MessageDigest.getInstance("SHA-256").digest(style.getBytes(StandardCharsets.UTF_8));
        return new Page(
            "<!DOCTYPE html>\n" + text + "\n",
            "default-src 'none'; style-src 'sha256-"
                + Base64.getEncoder().encodeToString(hash)
                + "'; frame-ancestors 'none'");
      } catch (XMLStreamException | NoSuchAlgorithmException e) {
        throw impossible(e);
      }
    }

    private static IllegalStateException impossible(Exception e) {
      return new IllegalStateException("writing to memory failed", e);
    }
  }
}
