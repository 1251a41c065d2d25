/**
 * Makes an element. Text is always text: nothing that came over the wire is ever read as markup.
 *
 * @param {string} name element
 * @param {object} [given] attributes; `on…` functions are listened with, `null` and `false` are left out
 * @param {...(Node|string|null)} inside
 */
export function el(name, given = {}, ...inside) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(given)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith('on')) element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value === true ? '' : value);
  }
  element.append(...inside.filter((part) => part !== null && part !== undefined));
  return element;
}

/** A labelled field. */
export function field(label, control) {
  return el('label', {}, label, control);
}

/** A choice among words; the first may be empty. */
export function choice(name, words, chosen = '') {
  return el(
    'select',
    { name },
    ...words.map(([value, text]) => el('option', { value, selected: value === chosen }, text)),
  );
}

/** A table with a caption; cells are nodes or texts. On a phone each row stands as a block, its cells under their heads. */
export function table(caption, heads, rows) {
  return el(
    'div',
    { class: 'wide' },
    el(
      'table',
      {},
      el('caption', {}, caption),
      el('thead', {}, el('tr', {}, ...heads.map((h) => el('th', { scope: 'col' }, h)))),
      el(
        'tbody',
        {},
        ...rows.map((cells) => el('tr', {}, ...cells.map((c, k) => el('td', { 'data-head': c ? heads[k] : null }, c)))),
      ),
    ),
  );
}

/** Facts by name; those without a value are left out. */
export function facts(pairs) {
  return el(
    'dl',
    { class: 'facts' },
    ...pairs
      .filter(([, value]) => value !== undefined && value !== null && value !== '')
      .flatMap(([name, value]) => [el('dt', {}, name), el('dd', {}, value)]),
  );
}

/** What went wrong, in the service's own words, field by field. */
export function problem(failure) {
  const told = failure.problem;
  return el(
    'div',
    { class: 'problem', role: 'alert', tabindex: '-1' },
    el('h3', {}, told ? told.title : 'The service cannot be reached'),
    el('p', {}, told ? told.detail : 'Nothing was lost here. Try again in a moment.'),
    told?.errors?.length
      ? el(
          'ul',
          {},
          ...told.errors.map((e) =>
            el('li', {}, [e.pointer ?? e.parameter, e.detail].filter(Boolean).join(': ')),
          ),
        )
      : null,
  );
}

/** A line for those who hear the page, gone with the next deed. */
export function say(text) {
  document.getElementById('said').textContent = text;
}
