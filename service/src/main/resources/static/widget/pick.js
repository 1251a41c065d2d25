/**
 * A text field that offers names of the catalogue while one types: a combobox with a list that suggests, after the
 * ARIA Authoring Practices. Whatever is typed may stand; the service knows the usual spellings, and says so when not.
 */
import { freshId, h } from './dom.js';

const TYPING_MS = 180;
const MOST = 7;

/**
 * @param {object} options
 * @param {string} options.id of the field, for its label
 * @param {string} options.value to begin with
 * @param {string|null} options.describedBy id of a hint
 * @param {import('./words.js').Words} options.words
 * @param {(q: string, signal: AbortSignal) => Promise<{id: string, name: string, synonyms: string[]}[]>} options.find
 * @returns {{node: HTMLElement, field: HTMLInputElement}}
 */
export function pick({ id, value, describedBy, words, find }) {
  const listId = freshId('names');
  const list = h('ul', { id: listId, role: 'listbox', class: 'names', part: 'names', 'aria-label': words.t('pick.list'), hidden: true });
  const told = h('span', { class: 'unseen', role: 'status' });
  let names = [];
  let at = -1;
  let clock = 0;
  let asked = new AbortController();

  const field = h('input', {
    id,
    type: 'text',
    role: 'combobox',
    class: 'field',
    part: 'field',
    value,
    autocomplete: 'off',
    autocapitalize: 'off',
    spellcheck: 'false',
    'aria-autocomplete': 'list',
    'aria-expanded': 'false',
    'aria-controls': listId,
    'aria-describedby': describedBy,
    oninput: () => {
      clearTimeout(clock);
      clock = setTimeout(offer, TYPING_MS);
    },
    onkeydown: (event) => key(event),
    // A press on a name comes before the field loses the focus, see below.
    onblur: () => close(),
  });
  list.addEventListener('pointerdown', (event) => event.preventDefault());

  async function offer() {
    asked.abort();
    asked = new AbortController();
    const { signal } = asked;
    const q = field.value.trim();
    if (q === '') return close();
    try {
      names = (await find(q, signal)).slice(0, MOST);
    } catch {
      if (signal.aborted) return;
      names = [];
      told.textContent = words.t('pick.away');
      return close();
    }
    const shown = field.getRootNode().activeElement === field;
    if (signal.aborted || !shown) return;
    list.replaceChildren(...names.map(option));
    list.hidden = names.length === 0;
    mark(-1);
    field.setAttribute('aria-expanded', String(!list.hidden));
    told.textContent = words.t(names.length === 0 ? 'pick.none' : 'pick.some', { n: names.length });
  }

  function option(name, k) {
    return h(
      'li',
      { id: `${listId}-${k}`, role: 'option', 'aria-selected': 'false', class: 'name', onclick: () => choose(k) },
      name.name,
      name.synonyms.length > 0 && h('span', { class: 'also' }, ` ${name.synonyms.slice(0, 3).join(', ')}`),
    );
  }

  function mark(k) {
    list.children[at]?.setAttribute('aria-selected', 'false');
    at = k;
    const marked = list.children[at];
    if (marked) {
      marked.setAttribute('aria-selected', 'true');
      marked.scrollIntoView({ block: 'nearest' });
      field.setAttribute('aria-activedescendant', marked.id);
    } else field.removeAttribute('aria-activedescendant');
  }

  function choose(k) {
    field.value = names[k].name;
    close();
    field.dispatchEvent(new Event('change', { bubbles: true }));
  }

  function drop() {
    clearTimeout(clock);
    asked.abort();
  }

  function close() {
    drop();
    list.hidden = true;
    mark(-1);
    field.setAttribute('aria-expanded', 'false');
  }

  function key(event) {
    const last = names.length - 1;
    // Names that are still being looked up are no longer wanted.
    if (event.key === 'Enter' || event.key === 'Escape') drop();
    if (event.key === 'ArrowDown' && list.hidden) offer();
    else if (list.hidden) return;
    else if (event.key === 'ArrowDown') mark(at >= last ? 0 : at + 1);
    else if (event.key === 'ArrowUp') mark(at <= 0 ? last : at - 1);
    else if (event.key === 'Enter' && at >= 0) choose(at);
    else if (event.key === 'Escape') close();
    else return;
    event.preventDefault();
  }

  return { node: h('div', { class: 'pick' }, field, list, told), field };
}
