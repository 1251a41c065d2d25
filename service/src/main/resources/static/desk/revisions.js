import { get, query } from './api.js';
import { el, facts, problem, table } from './dom.js';
import { pages } from './pages.js';
import { day } from './words.js';

/** Numbered states of the evidence, and whether their chain holds. */
export async function revisions(work) {
  const list = el('div', { 'aria-live': 'polite' });
  const verdict = el('p', { 'aria-live': 'polite' });
  const verify = el('button', { type: 'button' }, 'Does the chain hold?');
  verify.addEventListener('click', async () => {
    verify.disabled = true;
    verdict.replaceChildren('Reckoning every digest …');
    try {
      const told = await get('/v1/curation/revisions/verify');
      verdict.replaceChildren(
        told.verified
          ? `It holds: ${told.revisions} revisions, each with the digest of what it holds and of all before it.`
          : `It is broken${told.firstBroken ? ` at revision ${told.firstBroken}` : ''}: somebody changed what had been accepted. Tell the operator.`,
      );
    } catch (failure) {
      verdict.replaceChildren(problem(failure));
    }
    verify.disabled = false;
  });
  work.replaceChildren(el('h2', {}, 'Revisions'), el('div', { class: 'bar' }, verify), verdict, list);
  await pages(
    list,
    (cursor) => '/v1/revisions' + query({ limit: '50', cursor }),
    (page) =>
      table(
        `${page.total} revisions`,
        ['revision', 'when', 'records', 'note', 'digest'],
        page.items.map((r) => [
          el('a', { href: `#revision/${r.revision}` }, String(r.revision)),
          day(r.createdAt),
          String(r.records),
          r.note ?? '',
          `${r.digest.slice(0, 12)}…`,
        ]),
      ),
  );
}

/** What one revision changed. */
export async function revision(work, number) {
  try {
    const r = await get(`/v1/revisions/${encodeURIComponent(number)}`);
    const changes = Object.entries(r.changes ?? {}).filter(([, change]) => change?.count);
    work.replaceChildren(
      el('h2', {}, `Revision ${r.revision}`),
      facts([
        ['when', day(r.createdAt)],
        ['records in it', String(r.records)],
        ['note', r.note],
        ['digest', r.digest],
      ]),
      ...changes.map(([what, change]) =>
        el(
          'section',
          {},
          el('h3', {}, `${what}: ${change.count}`),
          el(
            'p',
            {},
            ...change.ids.flatMap((id) => [
              ['accepted', 'withdrawn', 'superseded'].includes(what) ? el('a', { href: `#record/${id}` }, id) : id,
              ' ',
            ]),
          ),
        ),
      ),
    );
  } catch (failure) {
    work.replaceChildren(el('h2', {}, `Revision ${number}`), problem(failure));
  }
}
