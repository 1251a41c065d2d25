/** The questions, in plain words. All but the crop may be left open. */
import { h } from './dom.js';
import { pick } from './pick.js';
import { NOTHING } from './request.js';

export const CROPS = [
  'apple',
  'european-pear',
  'asian-pear',
  'quince',
  'sweet-cherry',
  'tart-cherry',
  'peach',
  'european-plum',
  'japanese-plum',
  'apricot',
];

// Heights in metres that people reach from the ground and from steps, coldest nights in °C and hours of chill that
// stand for what the words say: common practice, no source. An operator who knows the place sets the figures instead.
const REACH = ['2.5', '3.5', 'any'];
const COLD = ['0', '-7', '-15', '-23', '-30', '-37'];
const CHILL = ['200', '450', '800', '1200'];
const DRAINAGE = ['well-drained', 'somewhat-poorly-drained', 'poorly-drained'];
const PURPOSES = ['home-garden', 'market-orchard', 'low-input-orchard', 'teaching-garden', 'long-lived-planting'];
export const MATTERS = ['early-cropping', 'size', 'yield', 'long-life', 'upkeep', 'support', 'variety-disease'];
const MORE = {
  support: ['none', 'stake', 'trellis'],
  care: ['conventional', 'low-input', 'organic'],
  irrigation: ['none', 'occasional', 'reliable'],
  wind: ['sheltered', 'moderate', 'exposed'],
  replant: ['yes', 'no'],
};

/**
 * @param {object} context `words`, `units`, `told` to begin with, `set` by the page's author,
 *     `find(kind, q, crop, signal)` for names of the catalogue, `names` of the varieties that the author has set
 * @param {() => void} submitted
 * @param {() => void} cleared
 */
export function questions({ words, units, told, set, find, names }, submitted, cleared) {
  const seen = new Set();
  const asked = (question) => set.ask.length === 0 || set.ask.includes(question);
  const hint = (key, id) =>
    words.has(key) ? h('p', { class: 'hint', id }, words.glossed(words.t(key), seen)) : null;
  const faultOf = (name) => h('p', { class: 'fault', id: `${name}-fault`, 'data-fault': name, hidden: true });

  const question = (name, field, { key = name, label = `${name}-field` } = {}) =>
    h(
      'div',
      { class: 'question', part: 'question' },
      h('label', { for: label, class: 'asks' }, words.t(`ask.${key}`)),
      hint(`hint.${key}`, `${name}-hint`),
      field,
      faultOf(name),
    );

  const group = (name, ...inside) =>
    h(
      'fieldset',
      { class: 'question', part: 'question', 'data-group': name, 'aria-describedby': words.has(`hint.${name}`) ? `${name}-hint` : null },
      h('legend', { class: 'asks' }, words.t(`ask.${name}`)),
      hint(`hint.${name}`, `${name}-hint`),
      inside,
      faultOf(name),
    );

  const chips = (name, values, type, text) =>
    h(
      'div',
      { class: 'chips' },
      values.map((value) =>
        h(
          'label',
          { class: 'chip', part: 'chip' },
          h('input', {
            type,
            name,
            value,
            checked: type === 'radio' ? told[name] === value : told[name].includes(value),
          }),
          h('span', {}, text(value)),
        ),
      ),
    );

  const choice = (name, values, text, open = words.t('open')) => {
    // What the author of the page knows of the place may lie between the usual steps.
    const all = told[name] && !values.includes(told[name]) ? [told[name], ...values] : values;
    return h(
      'select',
      { id: `${name}-field`, name, class: 'field', part: 'field', 'aria-describedby': words.has(`hint.${name}`) ? `${name}-hint` : null },
      h('option', { value: '' }, open),
      all.map((value) => h('option', { value, selected: told[name] === value }, text(value))),
    );
  };

  const side = (name) =>
    h(
      'label',
      { class: 'side' },
      h('span', {}, words.t(`ask.${name}`)),
      h('span', { class: 'figured' }, h('input', {
        id: `${name}-field`,
        name,
        value: told[name],
        type: 'text',
        inputmode: 'decimal',
        autocomplete: 'off',
        maxlength: 8,
        class: 'field short',
        part: 'field',
        'aria-describedby': `${name}-fault`,
      }), h('span', { 'aria-hidden': 'true' }, units.lengthUnit)),
      h('span', { class: 'unseen' }, words.t(`unit.${units.lengthUnit}`)),
    );

  const variety = () => {
    if (set.pairings.length > 0 || set.varieties.length === 1) return null;
    if (set.varieties.length > 1) {
      return question('variety', choice('variety', set.varieties, (v) => names.get(v) ?? v, words.t('open.variety')));
    }
    const { node, field } = pick({
      id: 'variety-field',
      value: told.variety,
      describedBy: 'variety-hint variety-fault',
      words,
      find: (q, signal) => find('varieties', q, crop(), signal),
    });
    field.name = 'variety';
    return question('variety', node);
  };

  const temperature = (c) => words.t(COLD.includes(c) ? `cold.${c}` : 'cold.other', { t: units.temperature(Number(c)) });
  const hours = (n) => words.t(CHILL.includes(n) ? `chill.${n}` : 'chill.other', { n: units.number(Number(n)) });
  const chill = asked('chill') && question('chill', choice('chill', CHILL, hours));
  const more = Object.entries(MORE).filter(([name]) => asked(name));

  const form = h(
    'form',
    {
      class: 'form',
      part: 'form',
      novalidate: true,
      'aria-label': words.t('form.label'),
      onsubmit: (event) => {
        event.preventDefault();
        submitted();
      },
      onchange: () => fit(),
    },
    !set.crop && set.pairings.length === 0 && group('crop', chips('crop', CROPS, 'radio', (c) => words.t(`crop.${c}`))),
    asked('variety') && variety(),
    asked('space') && group('space', h('div', { class: 'sides' }, side('wide'), h('span', { class: 'by', 'aria-hidden': 'true' }, '×'), side('long')), faultOf('wide'), faultOf('long')),
    asked('reach') &&
      group(
        'reach',
        chips('reach', [...REACH, ''], 'radio', (r) =>
          words.t(r === '' ? 'open' : `reach.${r}`, { h: r === '' || r === 'any' ? '' : units.length(Number(r)) }),
        ),
      ),
    asked('drainage') && group('drainage', chips('drainage', [...DRAINAGE, ''], 'radio', (d) => words.t(d === '' ? 'open' : `drainage.${d}`))),
    asked('cold') && question('cold', choice('cold', COLD, temperature)),
    chill,
    asked('purpose') && question('purpose', choice('purpose', PURPOSES, (p) => words.t(`purpose.${p}`))),
    asked('matters') && group('matters', chips('matters', MATTERS, 'checkbox', (m) => words.t(`matters.${m}`))),
    more.length > 0 &&
      h(
        'details',
        { class: 'more', part: 'details', open: more.some(([name]) => told[name] !== '') },
        h('summary', {}, words.t('form.more')),
        h('div', { class: 'pairs' }, more.map(([name, values]) => question(name, choice(name, values, (v) => words.t(`${name}.${v}`))))),
      ),
    h(
      'div',
      { class: 'actions' },
      h('button', { type: 'submit', class: 'button main', part: 'button submit' }, words.t('form.ask')),
      h('button', { type: 'button', class: 'button quiet', part: 'button', onclick: () => cleared() }, words.t('form.clear')),
    ),
    h('p', { class: 'hint' }, words.t('form.open')),
  );

  function crop() {
    return set.crop || new FormData(form).get('crop') || '';
  }

  /** Chill only parts varieties where winters are mild, or where nobody said how they are. */
  function fit() {
    const cold = new FormData(form).get('cold');
    if (chill) chill.hidden = !(cold === null || cold === '' || Number(cold) >= -7) && told.chill === '';
  }
  fit();
  return form;
}

/** What stands in the form. */
export function told(form, set) {
  const data = new FormData(form);
  const values = { ...NOTHING, ...set.place, crop: set.crop };
  for (const name of Object.keys(NOTHING)) {
    if (name === 'matters') values.matters = data.getAll('matters');
    else if (data.has(name)) values[name] = String(data.get(name));
  }
  return values;
}

/**
 * Shows faults where they are, and puts the focus on the first.
 *
 * @param {Record<string, (string|Node)[]>} faults text by field
 */
export function showFaults(form, faults) {
  for (const note of form.querySelectorAll('[data-fault]')) {
    const text = faults[note.dataset.fault];
    note.replaceChildren(...(text ?? []));
    note.hidden = !text;
    const field = form.querySelector(`[name="${note.dataset.fault}"]`);
    if (text) field?.setAttribute('aria-invalid', 'true');
    else field?.removeAttribute('aria-invalid');
  }
  const first = [...form.querySelectorAll('[data-fault]')].find((note) => !note.hidden);
  if (!first) return false;
  const inside = first.closest('details');
  if (inside) inside.open = true;
  form.querySelector(`[name="${first.dataset.fault}"]`)?.focus();
  return true;
}
