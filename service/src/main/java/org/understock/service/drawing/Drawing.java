package org.understock.service.drawing;

import java.io.StringWriter;
import java.math.BigDecimal;
import java.math.RoundingMode;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.understock.wording.Words;

/**
 * Writes one picture, shape by shape. The same calls give the same bytes. Whatever text is given
 * comes out as text: what is special in XML is escaped, and what XML cannot carry is left out.
 */
public final class Drawing {
  private static final String FONT = "system-ui, 'Segoe UI', 'DejaVu Sans', Arial, sans-serif";

  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter xml;

  /**
   * Begins a picture on white paper.
   *
   * @param words whose language its texts are in
   * @param title what the picture is, in a line
   * @param description all that it says, for those who do not see it
   */
  public Drawing(Words words, double width, double height, String title, String description) {
    this(words, "", width, height, title, description);
  }

  /**
   * Begins a picture that stands among others in one page.
   *
   * @param ids begins the ids in the picture, so that no two in the page are alike
   */
  public Drawing(
      Words words, String ids, double width, double height, String title, String description) {
    try {
      xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
      xml.writeStartElement("svg");
      xml.writeDefaultNamespace("http://www.w3.org/2000/svg");
      attributes(
          "viewBox",
          "0 0 " + number(width) + " " + number(height),
          "width",
          width,
          "height",
          height,
          "lang",
          words.language().tag(),
          "role",
          "img",
          "aria-labelledby",
          ids + "title " + ids + "desc",
          "font-family",
          FONT,
          "font-size",
          13);
      labelled("title", ids, title);
      labelled("desc", ids, description);
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
    shape("rect", "width", width, "height", height, "fill", Palette.PAPER);
  }

  /** A shape without content; attributes are pairs of a name and a text or number. */
  public Drawing shape(String element, Object... attributes) {
    try {
      xml.writeEmptyElement(element);
      attributes(attributes);
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  public Drawing line(double x1, double y1, double x2, double y2, Object... attributes) {
    try {
      xml.writeEmptyElement("line");
      attributes("x1", x1, "y1", y1, "x2", x2, "y2", y2);
      attributes(attributes);
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  public Drawing rect(double x, double y, double width, double height, Object... attributes) {
    try {
      xml.writeEmptyElement("rect");
      attributes("x", x, "y", y, "width", width, "height", height);
      attributes(attributes);
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /**
   * A line of text whose baseline begins, or where {@code text-anchor} says so lies, at the point.
   */
  public Drawing text(double x, double y, String line, Object... attributes) {
    try {
      xml.writeStartElement("text");
      attributes("x", x, "y", y);
      attributes(attributes);
      xml.writeCharacters(clean(line));
      xml.writeEndElement();
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /**
   * Opens a group, to be closed with {@link #end()}; a title, where there is one, is shown when the
   * pointer rests on it.
   */
  public Drawing group(String title, Object... attributes) {
    try {
      xml.writeStartElement("g");
      attributes(attributes);
      if (!title.isEmpty()) {
        xml.writeStartElement("title");
        xml.writeCharacters(clean(title));
        xml.writeEndElement();
      }
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /** Closes the group opened last. */
  public Drawing end() {
    try {
      xml.writeEndElement();
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /** Closes the picture. */
  public String finish() {
    try {
      xml.writeEndDocument();
      xml.flush();
      return text + "\n";
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /** The text, shortened to as many characters with a mark where it is longer. */
  public static String shortened(String text, int most) {
    return text.length() <= most
        ? text
        : text.substring(0, Character.isHighSurrogate(text.charAt(most - 2)) ? most - 2 : most - 1)
            + "…";
  }

  private void labelled(String element, String ids, String content) throws XMLStreamException {
    xml.writeStartElement(element);
    xml.writeAttribute("id", ids + element);
    xml.writeCharacters(clean(content));
    xml.writeEndElement();
  }

  private void attributes(Object... pairs) throws XMLStreamException {
    for (int k = 0; k < pairs.length; k += 2) {
      Object value = pairs[k + 1];
      xml.writeAttribute(
          (String) pairs[k],
          value instanceof Number number ? number(number.doubleValue()) : clean(value.toString()));
    }
  }

  /** A number as pictures write it: two decimals at most. */
  static String number(double value) {
    return BigDecimal.valueOf(value)
        .setScale(2, RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }

  /** Without what XML 1.0 cannot carry. */
  public static String clean(String text) {
    return text.codePoints()
        .filter(
            c ->
                c == '\t'
                    || c == '\n'
                    || c >= ' ' && c <= 0xD7FF
                    || c >= 0xE000 && c <= 0xFFFD
                    || c >= 0x10000)
        .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
        .toString();
  }

  private static IllegalStateException impossible(XMLStreamException e) {
    return new IllegalStateException("writing to memory failed", e);
  }
}
