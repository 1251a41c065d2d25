package org.understock.wording;

import com.ibm.icu.text.MessagePattern;
import com.ibm.icu.text.MessagePattern.ArgType;
import com.ibm.icu.text.MessagePattern.Part;
import com.ibm.icu.text.PluralRules;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * One sentence of one language, read once: text, names of values, and branches by a word ({@code
 * select}) or by a number ({@code plural}, after the language's own rules). The syntax is that of
 * ICU's message formats, and ICU reads it; it is put together here because ICU's own formats may
 * not be shared by threads and would write thousands with a comma. A slug stands in a branch with
 * underscores ({@code poorly_drained}), as the syntax has no hyphens there.
 */
final class Phrase {
  private final Node root;
  private final Set<String> names = new TreeSet<>();

  /**
   * @throws IllegalArgumentException when the pattern is broken or asks for what is not served
   */
  Phrase(String pattern, PluralRules plurals) {
    root = new Reader(new MessagePattern(pattern), plurals).message(0);
  }

  /** Names of the values that stand in its text; those that only choose a branch are left out. */
  Set<String> names() {
    return names;
  }

  void tell(Values values, StringBuilder into) {
    root.tell(values, into);
  }

  /** The values that a sentence is told with. */
  interface Values {
    /** What stands in the text. */
    String text(String name);

    double number(String name);
  }

  private interface Node {
    void tell(Values values, StringBuilder into);
  }

  private record Text(String text) implements Node {
    @Override
    public void tell(Values values, StringBuilder into) {
      into.append(text);
    }
  }

  private record Named(String name) implements Node {
    @Override
    public void tell(Values values, StringBuilder into) {
      into.append(values.text(name));
    }
  }

  private record Sequence(Node[] parts) implements Node {
    @Override
    public void tell(Values values, StringBuilder into) {
      for (Node part : parts) part.tell(values, into);
    }
  }

  private record Select(String name, Map<String, Node> branches, Node other) implements Node {
    @Override
    public void tell(Values values, StringBuilder into) {
      branches.getOrDefault(values.text(name), other).tell(values, into);
    }
  }

  private record Plural(
      String name,
      Map<Double, Node> exact,
      Map<String, Node> branches,
      Node other,
      PluralRules rules)
      implements Node {
    @Override
    public void tell(Values values, StringBuilder into) {
      double number = values.number(name);
      Node node = exact.get(number);
      if (node == null) node = branches.getOrDefault(rules.select(number), other);
      node.tell(values, into);
    }
  }

  private final class Reader {
    private final MessagePattern pattern;
    private final PluralRules plurals;

    Reader(MessagePattern pattern, PluralRules plurals) {
      this.pattern = pattern;
      this.plurals = plurals;
    }

    /**
     * @param start index of the part at which the message begins
     */
    Node message(int start) {
      List<Node> nodes = new java.util.ArrayList<>();
      int limit = pattern.getLimitPartIndex(start);
      int from = pattern.getPart(start).getLimit();
      for (int i = start + 1; i <= limit; i++) {
        Part part = pattern.getPart(i);
        String text = pattern.getPatternString().substring(from, part.getIndex());
        if (!text.isEmpty()) nodes.add(new Text(text));
        from = part.getLimit();
        if (part.getType() == Part.Type.MSG_LIMIT) break;
        if (part.getType() != Part.Type.ARG_START) {
          if (part.getType() == Part.Type.REPLACE_NUMBER)
            throw new IllegalArgumentException("write the number's name in place of #");
          continue; // a quoting apostrophe, or where older formats want a second one
        }
        int end = pattern.getLimitPartIndex(i);
        nodes.add(argument(i));
        from = pattern.getPart(end).getLimit();
        i = end;
      }
      return nodes.size() == 1 ? nodes.get(0) : new Sequence(nodes.toArray(Node[]::new));
    }

    private Node argument(int start) {
      ArgType type = pattern.getPart(start).getArgType();
      int at = start + 1;
      // The same string as in the code that tells it: so it is found without comparing letters.
      String name = pattern.getSubstring(pattern.getPart(at++)).intern();
      if (type == ArgType.NONE) {
        names.add(name);
        return new Named(name);
      }
      if (type != ArgType.SELECT && type != ArgType.PLURAL)
        throw new IllegalArgumentException(type + " is not served: " + name);
      Map<String, Node> branches = new LinkedHashMap<>();
      Map<Double, Node> exact = new LinkedHashMap<>();
      @Nullable Node other = null;
      int end = pattern.getLimitPartIndex(start);
      while (at < end) {
        Part selector = pattern.getPart(at++);
        if (selector.getType() == Part.Type.ARG_INT) continue; // an offset is not used
        String word = pattern.getSubstring(selector);
        @Nullable Double number = null;
        if (pattern.getPart(at).getType().hasNumericValue())
          number = pattern.getNumericValue(pattern.getPart(at++));
        Node branch = message(at);
        at = pattern.getLimitPartIndex(at) + 1;
        if (number != null) exact.put(number, branch);
        else if (word.equals("other")) other = branch;
        else branches.put(word.replace('_', '-'), branch);
      }
      if (other == null) throw new IllegalArgumentException(name + " has no branch 'other'");
      return type == ArgType.SELECT
          ? new Select(name, branches, other)
          : new Plural(name, exact, branches, other, plurals);
    }
  }

  @Override
  public String toString() {
    return Arrays.toString(names.toArray());
  }
}
