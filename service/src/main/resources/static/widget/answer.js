/** The answer as a person reads it: the best first, each with its drawing, its score in words, reasons and cautions. */
import { h, s } from './dom.js';
import { drawing } from './figure.js';

const SHOWN_AT_FIRST = 3;
const REASONS = 3;
// Scores in words: a judgement. On a hard site even the best scores low, so the words of the reach stand above them.
const VERDICTS = [
  [75, 'very-good'],
  [60, 'good'],
  [45, 'fair'],
  [30, 'doubtful'],
  [0, 'poor'],
];

/**
 * @param {object} context `words`, `units`, `body` that was asked, `answer`, `cardOf(pairing)` an address,
 *     `choose(pairing)` or null where the page offers no choice
 */
export function answered(context) {
  const { words, answer } = context;
  const frame = frameOf(answer.pairings, context.body);
  // What a pairing is made of is told once.
  const articles = answer.pairings.map((pairing, k) => card(context, pairing, frame, k === 0));
  for (const article of articles.slice(SHOWN_AT_FIRST)) article.hidden = true;
  const rest = articles.length - SHOWN_AT_FIRST;
  const moreButton =
    rest > 0 &&
    h(
      'button',
      {
        type: 'button',
        class: 'button quiet',
        part: 'button',
        onclick: () => {
          for (const article of articles) article.hidden = false;
          moreButton.remove();
          articles[SHOWN_AT_FIRST].querySelector('h3').focus();
        },
      },
      words.t('answer.more', { n: rest }),
    );
  return [
    h('p', { class: 'reach-text' }, words.glossed(answer.reach.text, new Set())),
    h('div', { class: 'cards' }, articles),
    moreButton,
  ];
}

/** All drawings of one answer go as high, so that they can be compared. */
export function frameOf(pairings, body) {
  const reachM = body.goal?.maxHeightM ?? null;
  const highest = Math.max(reachM ?? 0, ...pairings.map((p) => p.expectations.heightM.high));
  return { reachM, topM: highest + 0.25 };
}

function treeOf(pairing) {
  const { heightM, spreadM } = pairing.expectations;
  return { fruit: pairing.variety.name, roots: pairing.stock.name, heightM, spreadM };
}

function card(context, pairing, frame, first) {
  const { words, units, cardOf, choose } = context;
  const seen = new Set();
  const name = words.t('answer.pairing', { variety: pairing.variety.name, stock: pairing.stock.name });
  const gloss = (text) => words.glossed(text, seen);
  const forIt = pairing.reasons.filter((r) => r.effect > 0).slice(0, REASONS);
  const against = pairing.reasons.find((r) => r.effect < 0);
  const shown = new Set([...forIt, against]);
  const rest = pairing.reasons.filter((r) => !shown.has(r));
  // That it needs pollen is told where the partners are.
  const needsPollen = pairing.cautions.find((c) => c.code === 'pollen-partner-needed');
  const [caution, ...otherCautions] = pairing.cautions.filter((c) => c !== needsPollen);
  return h(
    'article',
    { class: 'card', part: 'card' },
    h(
      'div',
      { class: 'drawn' },
      drawing(words, units, [treeOf(pairing)], frame),
    ),
    h(
      'div',
      { class: 'told' },
      h('h3', { class: 'pairing', part: 'pairing', tabindex: '-1' }, name),
      first && h('p', { class: 'hint' }, gloss(words.t('answer.parts', { variety: pairing.variety.name, stock: pairing.stock.name }))),
      score(context, pairing),
      h(
        'ul',
        { class: 'reasons', part: 'reasons' },
        forIt.map((r) => reason(words, 'for', gloss(r.text))),
        against && reason(words, 'against', gloss(against.text)),
        caution && reason(words, 'caution', gloss(caution.text)),
      ),
      expectations(context, pairing, gloss),
      partners(context, pairing, needsPollen, gloss),
      fold(
        words.t('answer.all'),
        rest.length > 0 && h('ul', { class: 'reasons' }, rest.map((r) => reason(words, r.effect > 0 ? 'for' : r.effect < 0 ? 'against' : 'even', gloss(r.text)))),
        otherCautions.length > 0 && h('ul', { class: 'reasons' }, otherCautions.map((c) => reason(words, 'caution', gloss(c.text)))),
        pairing.thinEvidence.length > 0 && [
          h('p', { class: 'sub' }, words.t('answer.thin')),
          h('ul', { class: 'plain' }, pairing.thinEvidence.map((thin) => h('li', {}, gloss(thin.text)))),
        ],
        pairing.aheadOfNext && h('p', {}, gloss(pairing.aheadOfNext)),
      ),
      h(
        'p',
        { class: 'actions' },
        choose &&
          h(
            'button',
            { type: 'button', class: 'button main', part: 'button choose', 'aria-label': `${words.t('answer.choose')}: ${name}`, onclick: () => choose(pairing) },
            words.t('answer.choose'),
          ),
        h('a', { class: 'button', part: 'link', href: cardOf(pairing) }, words.t('answer.card'), h('span', { class: 'unseen' }, `: ${name}`)),
      ),
    ),
  );
}

function reason(words, kind, text) {
  const signs = { for: '+', against: '−', caution: '!', even: '=' };
  return h(
    'li',
    { class: kind },
    h('span', { class: 'sign', 'aria-hidden': 'true' }, signs[kind]),
    h('span', { class: 'unseen' }, `${words.t(`reason.${kind}`)} `),
    text,
  );
}

function verdict(score) {
  return VERDICTS.find(([least]) => score >= least)[1];
}

function score({ words, units }, pairing) {
  const [at, low, high] = [pairing.score, pairing.scoreRange.low, pairing.scoreRange.high].map(Math.round);
  const said = words.t(`verdict.${verdict(pairing.score)}`);
  return h(
    'div',
    { class: 'score', part: 'score' },
    h(
      'p',
      { class: 'points' },
      h('strong', {}, units.number(at)),
      ` ${words.t('score.of')} — `,
      h('span', { class: 'verdict' }, said),
    ),
    s(
      'svg',
      { class: 'bar', viewBox: '0 0 100 8', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
      s('rect', { class: 'bar-all', x: 0, y: 3, width: 100, height: 2 }),
      s('rect', { class: 'bar-range', x: low, y: 1, width: Math.max(1, high - low), height: 6 }),
      s('rect', { class: 'bar-at', x: at - 0.5, y: 0, width: 1, height: 8 }),
    ),
    h('p', { class: 'hint' }, words.t('score.range', { low: units.number(low), high: units.number(high) })),
  );
}

function expectations({ words, units }, pairing, gloss) {
  const e = pairing.expectations;
  const years = (y) => (y.low === y.high ? words.t('year.one', { n: y.low }) : words.t('year.range', { low: y.low, high: y.high }));
  const range = (r, of) => (of(r.low) === of(r.high) ? of(r.low) : words.t('range', { low: of(r.low), high: of(r.high) }));
  const rows = [
    ['height', range(e.heightM, (m) => units.length(m))],
    ['width', range(e.spreadM, (m) => units.length(m))],
    ['first-crop', years(e.firstCropYear)],
    ['full-crop', years(e.fullCropYear)],
    ['life', words.t('years', { low: e.productiveLifeYears.low, high: e.productiveLifeYears.high })],
    ['yield', range(e.matureYieldKgPerTree, (kg) => units.mass(kg))],
    ['spacing', units.length(e.inRowSpacingM)],
    ['support', words.t(`support-needed.${e.support}`)],
  ];
  return h(
    'dl',
    { class: 'facts', part: 'facts' },
    rows.map(([name, text]) => h('div', {}, h('dt', {}, words.t(`fact.${name}`)), h('dd', {}, gloss(text)))),
  );
}

function partners({ words }, pairing, needed, gloss) {
  if (pairing.partners.length === 0 && !needed) return null;
  return h(
    'div',
    { class: 'partners', part: 'partners' },
    h('p', { class: 'sub' }, gloss(words.t(needed ? 'partners.needed' : 'partners.may'))),
    needed && h('p', {}, gloss(needed.text)),
    pairing.partners.length === 0
      ? h('p', {}, words.t('partners.none'))
      : h(
          'ul',
          { class: 'plain' },
          pairing.partners.slice(0, 3).map((partner) =>
            h(
              'li',
              {},
              h('strong', {}, partner.variety.name),
              `: ${words.t(`pollen.${partner.pollen}`)}; ${words.t(`bloom.${partner.bloomOverlap}`)}`,
            ),
          ),
        ),
  );
}

/** Something to open, where there is something in it. */
export function fold(title, ...inside) {
  const kept = inside.flat(2).filter(Boolean);
  return kept.length > 0 && h('details', { class: 'fold', part: 'details' }, h('summary', {}, title), kept);
}

/** What was taken for granted, the usual cautions, and what it all rests on. */
export function groundsOf({ words, answer }) {
  const seen = new Set();
  return h(
    'footer',
    { class: 'grounds', part: 'grounds' },
    h('p', { class: 'sub' }, words.t('grounds.notices')),
    h('ul', { class: 'plain' }, answer.notices.map((notice) => h('li', {}, words.glossed(notice.text, seen)))),
    fold(
      words.t('grounds.assumed', { n: answer.assumptions.length }),
      answer.assumptions.length > 0 && h('ul', { class: 'plain' }, answer.assumptions.map((a) => h('li', {}, words.glossed(a.text, seen)))),
    ),
    fold(
      words.t('grounds.sources', { n: answer.sources.length }),
      h('p', {}, words.t('grounds.grade')),
      h('ul', { class: 'plain' }, answer.sources.map((source) => h('li', {}, `${source.citation} (${source.grade})`))),
    ),
    h('p', { class: 'hint' }, words.t('grounds.revision', { considered: answer.considered, revision: answer.revision })),
  );
}

/** Two stocks side by side under one variety: what tells against the one that was named, and what for it. */
export function compared({ words, units, body, answer }, best) {
  const out = answer.ruledOut.find((r) => r.stock.id !== best.stock.id);
  if (out) {
    return [
      h('h4', {}, words.t('whynot.out', { stock: out.stock.name, variety: out.variety.name })),
      h('ul', { class: 'reasons' }, out.limits.map((limit) => reason(words, 'against', words.glossed(limit.text, new Set())))),
    ];
  }
  const other = answer.pairings.find((p) => p.stock.id !== best.stock.id);
  if (!other) return [h('p', {}, words.t('whynot.same', { stock: best.stock.name }))];
  const first = answer.pairings.find((p) => p.stock.id === best.stock.id);
  if (!first) return [h('p', {}, words.t('whynot.alone', { stock: other.stock.name, score: units.number(Math.round(other.score)) }))];
  const seen = new Set();
  const effects = new Map(first.reasons.map((r) => [r.criterion, r.effect]));
  const differences = other.reasons
    .map((r) => ({ text: r.text, by: r.effect - (effects.get(r.criterion) ?? 0) }))
    .filter((d) => Math.abs(d.by) >= 0.3)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
  const list = (kind, chosen) => chosen.slice(0, REASONS).map((d) => reason(words, kind, words.glossed(d.text, seen)));
  const points = (p) => units.number(Math.round(p.score));
  const nearly = Math.abs(first.score - other.score) < 2;
  const key = nearly ? 'whynot.level' : other.score > first.score ? 'whynot.ahead' : 'whynot.behind';
  const frame = frameOf([first, other], body);
  return [
    h('h4', {}, words.t(key, { stock: other.stock.name, points: points(other), best: first.stock.name, bestPoints: points(first), variety: first.variety.name })),
    h('div', { class: 'drawn' }, drawing(words, units, [treeOf(first), treeOf(other)], frame)),
    h('ul', { class: 'reasons' }, list('against', differences.filter((d) => d.by < 0)), list('for', differences.filter((d) => d.by > 0)), other.cautions.slice(0, 1).map((c) => reason(words, 'caution', words.glossed(c.text, seen)))),
    differences.length === 0 && h('p', {}, words.t('whynot.alike')),
  ];
}
