import { call, deedKey, get, query, rights } from './api.js';
import { choice, el, facts, field, problem, say, table } from './dom.js';
import { pages } from './pages.js';
import { context, day, subject, value, words } from './words.js';
import { crops } from './places.js';

const STATES = ['proposed', 'accepted', 'rejected', 'withdrawn', 'superseded'];

/** Search among all records, whatever became of them. */
export async function records(work, asked) {
  const list = el('div', { 'aria-live': 'polite' });
  const form = el(
    'form',
    { class: 'ask' },
    field('Crop', choice('crop', [['', 'all'], ...(await crops())], asked.get('crop') ?? '')),
    field('Stock or variety', el('input', { name: 'subject', value: asked.get('subject') ?? '' })),
    field('Trait', el('input', { name: 'trait', value: asked.get('trait') ?? '' })),
    field('Source', el('input', { name: 'source', value: asked.get('source') ?? '' })),
    field('State', choice('status', [['', 'any'], ...STATES.map((s) => [s, s])], asked.get('status') ?? '')),
    el('button', { type: 'submit' }, 'Search'),
  );
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    show();
  });
  work.replaceChildren(el('h2', {}, 'Records'), form, list);
  await show();

  function show() {
    const fields = Object.fromEntries(new FormData(form));
    return pages(
      list,
      (cursor) => '/v1/curation/records' + query({ ...fields, limit: '50', cursor }),
      (page) =>
        page.items.length
          ? table(
              page.total === undefined ? 'shown here' : `${page.total} in all`,
              ['record', 'of', 'trait', 'says', 'source', 'state'],
              page.items.map((r) => [
                el('a', { href: `#record/${r.id}` }, r.id),
                subject(r.subject),
                words(r.trait),
                value(r.value),
                `${r.source}, ${r.locator}`,
                r.status,
              ]),
            )
          : el('p', {}, 'No such record.'),
    );
  }
}

/** One record with all that became of it. */
export async function record(work, id) {
  work.replaceChildren(el('h2', {}, id), el('p', {}, 'Fetching …'));
  try {
    const r = await get(`/v1/curation/records/${encodeURIComponent(id)}`);
    const out = el('div');
    const source = await get(`/v1/sources/${encodeURIComponent(r.source)}`).catch(() => null);
    const link = (other) => other && el('a', { href: `#record/${other}` }, other);
    work.replaceChildren(
      el('h2', {}, r.id),
      facts([
        ['of', subject(r.subject)],
        ['trait', words(r.trait)],
        ['says', value(r.value)],
        ['where', context(r.context)],
        ['how it is known', words(r.method)],
        ['source', source?.citation ?? r.source],
        ['place in it', r.locator],
        ['note', r.note],
        ['state', r.status],
        ['supersedes', link(r.supersedes)],
      ]),
      el('h3', {}, 'History'),
      history(r),
      out,
    );
    if (r.status === 'accepted' && rights().includes('evidence:review')) withdrawal(work, r, out);
    if (rights().includes('evidence:admin')) work.append(await trail(r.id));
  } catch (failure) {
    work.replaceChildren(el('h2', {}, id), problem(failure));
  }
}

function history(r) {
  return table(
    'what became of it',
    ['when', 'what', 'who'],
    [
      [day(r.proposedAt), 'proposed', r.proposedBy],
      r.editedAt && [day(r.editedAt), `amended (version ${r.version})`, r.editedBy],
      r.reviewedAt && [day(r.reviewedAt), `${r.status}${r.reviewNote ? `: ${r.reviewNote}` : ''}`, r.reviewedBy],
      r.revisionFrom && ['', `counts from revision ${r.revisionFrom} on`, ''],
      r.revisionTo && ['', `and no longer from revision ${r.revisionTo} on`, ''],
    ].filter(Boolean),
  );
}

function withdrawal(work, r, out) {
  const note = el('input', { required: true, maxlength: '2000' });
  const button = el('button', { type: 'submit' }, 'Withdraw');
  const form = el(
    'form',
    { class: 'bar' },
    el('label', { class: 'note' }, 'Why it no longer counts (it stays readable)', note),
    button,
  );
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    button.disabled = true;
    try {
      const done = await call('POST', '/v1/curation/reviews', {
        body: { withdraw: [r.id], note: note.value },
        key: deedKey(),
      });
      say(`Withdrawn in revision ${done.revision}.`);
      await record(work, r.id);
    } catch (failure) {
      out.replaceChildren(problem(failure));
      button.disabled = false;
    }
  });
  out.before(form);
}

async function trail(id) {
  try {
    const page = await get('/v1/curation/audit' + query({ subject: `record ${id}` }));
    return table(
      'audit',
      ['when', 'who', 'did', 'more'],
      page.items.map((line) => [day(line.at), line.actor, line.action, line.detail ?? '']),
    );
  } catch (failure) {
    return problem(failure);
  }
}
