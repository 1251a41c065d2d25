/** The widget's texts in one language, and the trade words that are explained where they stand. */
import { freshId, h } from './dom.js';

export const LANGUAGES = ['en', 'es'];
const loaded = new Map();

/** Texts of a language; what failed to load is asked for again the next time. */
export function wordsIn(lang) {
  if (!loaded.has(lang)) {
    const coming = fetch(new URL(`messages/${lang}.json`, import.meta.url), { credentials: 'omit' }).then(
      async (response) => {
        if (!response.ok) throw new Error(`The texts can't be read: ${response.status}`);
        return new Words(lang, await response.json());
      },
    );
    loaded.set(lang, coming);
    coming.catch(() => loaded.delete(lang));
  }
  return loaded.get(lang);
}

export class Words {
  #messages;
  #terms;

  constructor(lang, messages) {
    this.lang = lang;
    this.#messages = messages;
    // Longer words first, so that "full crop" is not found as "crop".
    this.#terms = Object.entries(messages.glossary).sort((a, b) => b[1].match.length - a[1].match.length);
  }

  has(key) {
    return key in this.#messages;
  }

  /** A text with its `{names}` filled in. A key without a text is a fault of ours, and seen. */
  t(key, values = {}) {
    const text = this.#messages[key];
    if (typeof text !== 'string') return `[${key}]`;
    return text.replace(/\{(\w+)\}/g, (all, name) => (name in values ? String(values[name]) : all));
  }

  /**
   * A text as nodes in which the first of each trade word is a button that explains it.
   *
   * @param {Set<string>} seen words that have been explained in this part of the page already
   */
  glossed(text, seen) {
    const hits = [];
    for (const [id, term] of this.#terms) {
      if (seen.has(id)) continue;
      const found = new RegExp(`(?<![\\p{L}-])(?:${term.match})(?![\\p{L}-])`, 'iu').exec(text);
      if (!found) continue;
      const [from, to] = [found.index, found.index + found[0].length];
      if (hits.some((other) => from < other.to && other.from < to)) continue;
      seen.add(id);
      hits.push({ from, to, term });
    }
    hits.sort((a, b) => a.from - b.from);
    const nodes = [];
    let at = 0;
    for (const { from, to, term } of hits) {
      nodes.push(text.slice(at, from), this.#term(text.slice(from, to), term.text));
      at = to;
    }
    nodes.push(text.slice(at));
    return nodes.filter((node) => node !== '');
  }

  /** A button in the line of the text; its explanation opens below that text and stays until it is closed. */
  #term(word, text) {
    const id = freshId('term');
    const note = h('span', { id, class: 'note', part: 'note', hidden: true }, text);
    const show = (open) => {
      if (!note.isConnected) (button.closest('p,li,dd,figcaption') ?? button.parentNode).append(note);
      note.hidden = !open;
      button.setAttribute('aria-expanded', String(open));
      if (open) button.setAttribute('aria-controls', id);
      if (open) button.dispatchEvent(new CustomEvent('say', { bubbles: true, detail: text }));
    };
    const button = h(
      'button',
      {
        type: 'button',
        class: 'term',
        part: 'term',
        'aria-expanded': 'false',
        onclick: () => show(note.hidden),
        onkeydown: (event) => {
          if (event.key !== 'Escape' || note.hidden) return;
          event.stopPropagation();
          show(false);
        },
      },
      word,
    );
    return button;
  }
}
