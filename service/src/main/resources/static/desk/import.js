import { call, deedKey, rights } from './api.js';
import { choice, el, field, problem, say } from './dom.js';
import { decoded, plain, recolumned } from './spreadsheet.js';

const KINDS = [
  ['trial-means', 'trial means'],
  ['ratings', 'ratings'],
  ['varieties', 'statements about varieties'],
  ['compatibility', 'compatibility'],
  ['sources', 'sources'],
  ['stocks', 'stocks of the catalogue'],
  ['variety-catalogue', 'varieties of the catalogue'],
];

/** Lines shown around one that is refused. */
const AROUND = 1;
const MOST_SHOWN = 200;

/** A spreadsheet, saved as CSV: proposed whole, or told line by line what is wrong with it. */
export async function importing(work) {
  const text = el('textarea', { name: 'text', 'aria-describedby': 'how', spellcheck: 'false' });
  const file = el('input', { type: 'file', accept: '.csv,text/csv', onchange: load });
  const done = el('ul', { class: 'quiet', 'aria-live': 'polite' });
  const send = el('button', { type: 'submit', class: 'deed' }, 'Propose');
  const out = el('div', { 'aria-live': 'polite' });
  const form = el(
    'form',
    { onsubmit: propose },
    el(
      'div',
      { class: 'ask bar' },
      field('What it holds', choice('kind', KINDS, 'ratings')),
      field(
        'If a row is wrong',
        choice('mode', [['all-or-nothing', 'propose nothing'], ['row-by-row', 'propose the others']], 'all-or-nothing'),
      ),
      field('A CSV file', file),
    ),
    el('label', {}, 'or its rows, the first with the names of the columns', text),
    done,
    el('p', { class: 'quiet', id: 'how' }, 'Semicolons or tabs between columns, and decimal commas with them, are rewritten here; what was done is told. You can mend a row here and send it again: what was proposed before is counted and not filed twice.'),
    el('div', { class: 'bar' }, send),
  );
  work.replaceChildren(el('h2', {}, 'Bring in a spreadsheet'), form, out);
  if (!rights().includes('evidence:propose')) {
    send.disabled = true;
    out.append(el('p', { class: 'quiet' }, 'Your token may not propose: that asks for evidence:propose.'));
  }

  text.addEventListener('change', () => rewrite(text.value, []));

  async function load() {
    if (!file.files.length) return;
    const read = decoded(await file.files[0].arrayBuffer());
    rewrite(read.text, read.told);
  }

  /** What is sent, and the lines that problems name, are what is shown. */
  function rewrite(raw, before) {
    const { text: rows, told } = plain(raw);
    if (text.value !== rows) text.value = rows;
    done.replaceChildren(...[...before, ...told].map((line) => el('li', {}, line)));
  }

  async function propose(event) {
    event.preventDefault();
    if (plain(text.value).told.length) rewrite(text.value, []); // sent without having left the field
    const { kind, mode } = Object.fromEntries(new FormData(form));
    send.disabled = true;
    out.replaceChildren(el('p', {}, 'Reading …'));
    try {
      const filed = await call('POST', `/v1/curation/imports?kind=${kind}&mode=${mode}`, {
        body: text.value,
        type: 'text/csv',
        key: deedKey(),
      });
      const told = `${filed.rows} rows read, ${filed.proposed} proposed, ${filed.duplicates} known already, ${filed.refused} refused.`;
      out.replaceChildren(
        el(
          'div',
          { class: 'done' },
          el('p', {}, told),
          filed.proposed ? el('p', {}, el('a', { href: `#queue?import=${filed.id}` }, 'To the proposals of this file')) : null,
        ),
        lines(text.value, filed.problems ?? [], filed.problemCount ?? 0),
      );
      say(told);
    } catch (failure) {
      const told = failure.problem;
      out.replaceChildren(problem({ problem: told && { ...told, errors: told.problems ? [] : told.errors } }));
      out.append(columns(told?.problems ?? []) ?? '', lines(text.value, told?.problems ?? [], told?.problemCount ?? 0));
      out.firstChild.focus();
    }
    send.disabled = false;
  }

  /** What is wrong with the names of columns can be mended in all rows at once. */
  function columns(problems) {
    const named = (pattern) => problems.map((p) => p.line === 1 && pattern.exec(p.text)?.[1]).filter(Boolean);
    const missing = named(/^column (\S+) is missing$/);
    const without = named(/^column '(.+)' is not known/);
    if (!missing.length && !without.length) return null;
    const mend = (words, gone, added) =>
      el(
        'button',
        {
          type: 'button',
          onclick: (event) => {
            text.value = recolumned(text.value, gone, added);
            event.target.disabled = true;
            say('Done in every row. Propose again.');
          },
        },
        words,
      );
    return el(
      'div',
      { class: 'bar' },
      missing.length ? mend(`Add empty ${missing.length > 1 ? 'columns' : 'column'} ${missing.join(', ')}`, [], missing) : null,
      without.length ? mend(`Leave out ${without.length > 1 ? 'columns' : 'column'} ${without.join(', ')}`, without, []) : null,
    );
  }
}

/** The file's own lines with what is wrong under them. */
function lines(text, problems, count) {
  if (!problems.length) return el('div');
  const rows = text.split(/\r?\n/);
  const byLine = new Map();
  for (const p of problems.slice(0, MOST_SHOWN)) byLine.set(p.line, [...(byLine.get(p.line) ?? []), p]);
  const shown = new Set([1]);
  for (const line of byLine.keys())
    for (let near = line - AROUND; near <= line + AROUND; near++) if (near >= 1 && near <= rows.length) shown.add(near);
  const box = el('div', { class: 'lines', tabindex: '0', role: 'region', 'aria-label': 'Lines of the file with their problems' });
  let last = 0;
  for (const line of [...shown].sort((a, b) => a - b)) {
    if (line > last + 1) box.append(el('div', {}, el('span', { class: 'at' }, '⋯'), el('span')));
    last = line;
    box.append(
      el('div', { class: byLine.has(line) ? 'bad' : null }, el('span', { class: 'at' }, String(line)), el('span', {}, rows[line - 1] ?? '')),
    );
    for (const p of byLine.get(line) ?? [])
      box.append(el('div', { class: 'why' }, el('span', { class: 'at' }, '▲'), el('span', {}, p.column ? `${p.column}: ${p.text}` : p.text)));
  }
  return el(
    'section',
    {},
    el('h3', {}, count > MOST_SHOWN ? `The first ${MOST_SHOWN} of ${count} problems` : count === 1 ? 'One problem' : `${count} problems`),
    box,
  );
}
