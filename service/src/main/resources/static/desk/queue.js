import { call, deedKey, query, rights } from './api.js';
import { choice, el, field, problem, say, table } from './dom.js';
import { pages } from './pages.js';
import { context, estimate, subject, value, words } from './words.js';
import { crops } from './places.js';

/** Proposals that wait, what they would change, and the decision. */
export async function queue(work, asked) {
  const list = el('div');
  const side = el('div', { 'aria-live': 'polite' });
  const chosen = new Set();
  const form = el(
    'form',
    { class: 'ask', onsubmit: (event) => event.preventDefault() },
    field('Crop', choice('crop', [['', 'all'], ...(await crops())], asked.get('crop') ?? '')),
    field('Trait', el('input', { name: 'trait', value: asked.get('trait') ?? '' })),
    field('Source', el('input', { name: 'source', value: asked.get('source') ?? '' })),
    field('Import', el('input', { name: 'import', value: asked.get('import') ?? '' })),
    el('button', { type: 'submit' }, 'Show'),
  );
  const note = el('input', { name: 'note', maxlength: '2000', required: true });
  const look = el('button', { type: 'button', onclick: () => foresee() }, 'What would it change?');
  const accept = el('button', { type: 'button', class: 'deed', onclick: () => decide('accept') }, 'Accept');
  const reject = el('button', { type: 'button', onclick: () => decide('reject') }, 'Reject');
  const bar = el(
    'div',
    { class: 'bar' },
    el('label', { class: 'note' }, 'Note: what was checked, or why not', note),
    look,
    accept,
    reject,
  );
  const mayReview = rights().includes('evidence:review');

  form.addEventListener('submit', () => show());
  work.replaceChildren(el('h2', {}, 'Proposals that wait'), form, bar, list, side);
  if (!mayReview)
    bar.append(el('p', { class: 'quiet' }, 'Your token may not accept or reject: that asks for evidence:review.'));
  await show();

  function marks() {
    for (const button of [accept, reject]) button.disabled = !chosen.size || !mayReview;
    look.disabled = !chosen.size;
    look.textContent = chosen.size > 1 ? `What would these ${chosen.size} change?` : 'What would it change?';
  }

  function show() {
    const fields = Object.fromEntries(new FormData(form));
    chosen.clear();
    side.replaceChildren();
    marks();
    return pages(
      list,
      (cursor) => '/v1/curation/records' + query({ ...fields, status: 'proposed', limit: '100', cursor }),
      (page) => (page.items.length ? rows(page) : el('p', {}, 'Nothing waits here.')),
    );
  }

  function rows(page) {
    const tick = (item) =>
      el('input', {
        type: 'checkbox',
        'aria-label': `choose ${item.id}`,
        onchange: (event) => {
          if (event.target.checked) chosen.add(item.id);
          else chosen.delete(item.id);
          marks();
        },
      });
    const everything = el('input', {
      type: 'checkbox',
      onchange: (event) =>
        list.querySelectorAll('tbody input[type=checkbox]').forEach((box) => {
          if (box.checked !== event.target.checked) box.click();
        }),
    });
    const all = list.querySelector('table') ? null : el('label', { class: 'tick' }, everything, 'choose all that are shown');
    const found = table(
      page.total === undefined ? 'shown here' : `${page.total} in all`,
      ['choose', 'of', 'trait', 'says', 'where', 'source', 'proposed by', 'record'],
      page.items.map((item) => [
        tick(item),
        subject(item.subject),
        words(item.trait),
        value(item.value),
        [context(item.context), item.note].filter(Boolean).join('; '),
        `${item.source}, ${item.locator}`,
        item.proposedBy,
        el('a', { href: `#record/${item.id}` }, item.id),
      ]),
    );
    return el('div', {}, all, found);
  }

  async function foresee() {
    side.replaceChildren(el('p', {}, 'Reckoning what would change …'));
    look.disabled = true;
    try {
      side.replaceChildren(impact(await call('POST', '/v1/curation/impact', { body: { accept: [...chosen] } })));
    } catch (failure) {
      side.replaceChildren(problem(failure));
    }
    marks();
    side.scrollIntoView({ block: 'nearest' });
  }

  async function decide(deed) {
    if (!note.reportValidity()) return;
    for (const button of [accept, reject]) button.disabled = true;
    try {
      const done = await call('POST', '/v1/curation/reviews', {
        body: { [deed]: [...chosen], note: note.value },
        key: deedKey(),
      });
      const told =
        deed === 'accept'
          ? `Accepted: ${done.accepted}. Counts from revision ${done.revision} on.`
          : `Rejected: ${done.rejected}.`;
      note.value = '';
      await show();
      side.replaceChildren(
        el(
          'p',
          { class: 'done' },
          told,
          ...(done.revision
            ? [' ', el('a', { href: `#revision/${done.revision}` }, 'The revision'), ' ', el('a', { href: '#advice' }, 'Ask for advice on it')]
            : []),
        ),
      );
      say(told);
    } catch (failure) {
      side.replaceChildren(problem(failure));
      side.firstChild.focus();
      marks();
    }
  }
}

/** Estimates before and after, and what becomes of the kept examples. */
export function impact(told) {
  const direct = told.estimates.filter((e) => e.direct);
  const others = told.estimates.length - direct.length;
  const changed = told.advice.filter((a) => a.changed);
  return el(
    'section',
    { 'aria-label': 'What would change' },
    el('h3', {}, 'Estimates'),
    direct.length
      ? table(
          others ? `and ${others} more that lean on the same trials` : 'all that would change',
          ['of', 'trait', 'now', 'then'],
          direct.map((e) => [`${e.subject}, ${words(e.crop)}`, words(e.trait), estimate(e.before), estimate(e.after)]),
        )
      : el('p', {}, 'No estimate of what these records speak of would change.'),
    el('h3', {}, `First places in ${told.advice.length} kept examples`),
    changed.length
      ? el('div', {}, ...changed.map(example))
      : el('p', {}, 'No example would be answered otherwise.'),
  );
}

function example(change) {
  const places = (title, top, refused) =>
    el(
      'div',
      {},
      el('strong', {}, title),
      refused
        ? el('p', {}, refused)
        : el(
            'ol',
            {},
            ...top.map((p) => el('li', {}, `${p.variety.name} on ${p.stock.name}: ${p.score.toFixed(1)}`)),
          ),
    );
  return el(
    'section',
    {},
    el('h4', {}, change.title ?? change.example),
    el(
      'div',
      { class: 'sides' },
      places('now', change.topBefore ?? [], change.refusedBefore),
      places('then', change.topAfter ?? [], change.refusedAfter),
    ),
  );
}
