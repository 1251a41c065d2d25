/** "Why not another rootstock?": a person names one, and it is put beside the one that was advised. */
import { compared } from './answer.js';
import { Trouble } from './asking.js';
import { h } from './dom.js';
import { pick } from './pick.js';
import { whyNot } from './request.js';

/**
 * @param {object} context `words`, `units`, `body` that was asked, `best` pairing, `find` for names of stocks,
 *     `post(body, signal, waiting)`, `wait(place, trouble, seconds, now)` to tell that the service is away
 * @returns {{node: HTMLElement, stop: () => void}}
 */
export function comparison({ words, units, body, best, find, post, wait }) {
  let asking = new AbortController();
  const place = h('div', { class: 'compared', 'aria-live': 'polite' });
  const { node, field } = pick({ id: 'stock-field', value: '', describedBy: null, words, find });
  const fault = (...nodes) => place.replaceChildren(h('p', { class: 'fault' }, nodes));

  async function ask() {
    const stock = field.value.trim();
    if (stock === '') {
      fault(words.t('whynot.empty'));
      return field.focus();
    }
    asking.abort();
    asking = new AbortController();
    const { signal } = asking;
    const asked = whyNot(body, stock, best);
    place.replaceChildren(h('p', { class: 'progress' }, words.t('busy')));
    try {
      const answer = await post(asked, signal, (trouble, seconds, now) => wait(place, trouble, seconds, now));
      place.replaceChildren(...compared({ words, units, body: asked, answer }, best).flat().filter(Boolean));
    } catch (error) {
      if (signal.aborted) return;
      if (!(error instanceof Trouble)) throw error;
      refused(error);
    }
  }

  function refused(error) {
    const errors = error.problem?.errors ?? [];
    const ids = errors.find((e) => e.nearest)?.nearest;
    if (!ids) return fault(errors[0]?.detail ?? error.problem?.detail ?? words.t(`trouble.${error.kind}`));
    fault(
      nearest(words, ids, (id) => {
        field.value = id;
        ask();
      }),
    );
  }

  const section = h(
    'section',
    { class: 'whynot', part: 'whynot' },
    h('h3', {}, words.t('whynot.heading')),
    h('p', { class: 'hint' }, words.glossed(words.t('whynot.hint'), new Set())),
    h(
      'form',
      {
        novalidate: true,
        onsubmit: (event) => {
          event.preventDefault();
          ask();
        },
      },
      h('div', {}, h('label', { for: 'stock-field', class: 'asks' }, words.t('whynot.label')), node),
      h('button', { type: 'submit', class: 'button', part: 'button' }, words.t('whynot.ask')),
    ),
    place,
  );
  return { node: section, stop: () => asking.abort() };
}

/** "Did you mean": names that the service knows, to take with one press. */
export function nearest(words, ids, take) {
  return [
    `${words.t('fault.unknown')} `,
    ...ids.map((id) => h('button', { type: 'button', class: 'button quiet', onclick: () => take(id) }, id)),
    ' ?',
  ];
}
