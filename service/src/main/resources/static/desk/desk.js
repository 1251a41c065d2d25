import { claims, rights, token } from './api.js';
import { el, field, say } from './dom.js';
import { importing } from './import.js';
import { queue } from './queue.js';
import { record, records } from './records.js';
import { revision, revisions } from './revisions.js';

const PLACES = [
  ['queue', 'Proposals'],
  ['import', 'Spreadsheet'],
  ['records', 'Records'],
  ['revisions', 'Revisions'],
  ['advice', 'Advice'],
];
const work = document.getElementById('work');
const nav = document.getElementById('places');
const who = document.getElementById('who');

addEventListener('hashchange', () => go(true));
go(false);

/** Shows the place that the address names; without a token, the door. */
async function go(moved) {
  say('');
  const [path, asked] = location.hash.slice(1).split('?');
  const [place, id] = path.split('/').map(decodeURIComponent);
  head(place || 'queue');
  if (!token.get()) return door();
  const fields = new URLSearchParams(asked ?? '');
  if (place === 'import') await importing(work);
  else if (place === 'advice') await advice(work);
  else if (place === 'records') await records(work, fields);
  else if (place === 'record') await record(work, id);
  else if (place === 'revisions') await revisions(work);
  else if (place === 'revision') await revision(work, id);
  else await queue(work, fields);
  if (moved) work.focus();
}

/** The questions that growers are asked, answered on the latest revision. */
async function advice(work) {
  work.replaceChildren(el('h2', {}, 'Advice'), el('p', {}, 'As growers see it, on the latest revision; the answer names it at its end.'));
  await import('/widget/understock-advice.js');
  work.append(el('understock-advice', { lang: 'en' }));
}

function head(place) {
  const signed = Boolean(token.get());
  nav.hidden = !signed;
  nav.replaceChildren(
    ...PLACES.map(([id, title]) =>
      el('a', { href: `#${id}`, 'aria-current': place.startsWith(id.replace(/s$/, '')) ? 'page' : null }, title),
    ),
  );
  if (!signed) return who.replaceChildren();
  const until = claims()?.exp ? new Date(claims().exp * 1000).toLocaleTimeString() : '';
  who.replaceChildren(
    `${claims()?.sub ?? 'signed in'} (${rights().join(', ') || 'no rights told'})${until ? `, until ${until}` : ''} `,
    el('button', { type: 'button', onclick: leave }, 'Sign out'),
  );
}

function leave() {
  token.clear();
  location.hash = '';
  go(true);
}

function door() {
  const key = el('textarea', { name: 'token', required: true, autocomplete: 'off', spellcheck: 'false' });
  const form = el(
    'form',
    {},
    field('Your access token', key),
    el(
      'p',
      { class: 'quiet' },
      'It says who you are and what you may do: propose, review, administer. A service started with nothing configured printed one of each, and keeps them in the file access/tokens of its home. The token stays in this tab and is forgotten when you close it.',
    ),
    el('div', { class: 'bar' }, el('button', { type: 'submit', class: 'deed' }, 'Sign in')),
  );
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const given = key.value.trim().replace(/^(evidence:\w+ token:\s*|Bearer\s+)/, '');
    token.set(given);
    if (!claims()) {
      token.clear();
      key.setCustomValidity('This is no token: three parts with points between, as the service printed it.');
      key.reportValidity();
      key.addEventListener('input', () => key.setCustomValidity(''), { once: true });
      return;
    }
    go(true);
  });
  work.replaceChildren(el('h2', {}, 'Sign in'), form);
}
