/** Trees drawn to scale beside a person, with a ruler: nothing is drawn that is not in the answer. */
import { freshId, h, s } from './dom.js';

const WIDTH = 340;
const HEIGHT = 300;
const GROUND = 252;
const LEFT = 40;
const TOP = 14;
const PERSON_M = 1.7; // a grown person of middling height; a judgement
const GAP_M = 0.45;
const UNION_M = 0.12; // a hand's breadth above the soil, as the cautions say

/**
 * @param {import('./words.js').Words} words
 * @param {import('./units.js').Units} units
 * @param {{fruit: string, roots: string, heightM: object, spreadM: object}[]} trees low, likely and high, in metres
 * @param {{reachM: number|null, topM: number}} frame how high the drawing goes, the same for all trees of an answer
 */
export function drawing(words, units, trees, frame) {
  const topM = Math.max(frame.topM, PERSON_M + 0.2);
  const wide = trees.reduce((sum, t) => sum + GAP_M + t.spreadM.high, 0.75);
  const scale = Math.min((GROUND - TOP) / topM, (WIDTH - LEFT - 8) / wide);
  const y = (m) => GROUND - m * scale;
  const band = freshId('band');
  const parts = [
    s(
      'defs',
      {},
      s(
        'linearGradient',
        { id: band, x1: 0, y1: 0, x2: 0, y2: 1 },
        ...[[0, 0], [0.3, 1], [0.7, 1], [1, 0]].map(([offset, opacity]) =>
          s('stop', { offset, class: 'band-stop', 'stop-opacity': 0.5 * opacity }),
        ),
      ),
    ),
    ...ruler(units, topM, y),
  ];
  if (frame.reachM !== null && frame.reachM <= topM) {
    parts.push(
      s('line', { class: 'reach', x1: LEFT, x2: WIDTH, y1: y(frame.reachM), y2: y(frame.reachM) }),
      s('text', { class: 'small', x: WIDTH - 2, y: y(frame.reachM) - 4, 'text-anchor': 'end' }, words.t('figure.reach')),
    );
  }
  parts.push(s('line', { class: 'soil', x1: LEFT - 6, x2: WIDTH, y1: GROUND, y2: GROUND }));
  const labels = trees.length > 1;
  let x = LEFT + 0.4 * scale;
  parts.push(person(x, GROUND, scale));
  x += 0.35 * scale;
  for (const [k, tree] of trees.entries()) {
    const half = (tree.spreadM.high * scale) / 2;
    x += GAP_M * scale + half;
    parts.push(...one(tree, x, y, scale, band));
    if (labels) parts.push(s('text', { class: 'small', x, y: GROUND + 40, 'text-anchor': 'middle' }, tree.roots));
    else parts.push(...named(words, tree, x, k));
    x += half;
  }
  const told = trees.map((t) =>
    words.t('figure.told', {
      tree: words.t('answer.pairing', { variety: t.fruit, stock: t.roots }),
      height: units.length(t.heightM.likely),
      low: units.length(t.heightM.low),
      high: units.length(t.heightM.high),
      width: units.length(t.spreadM.likely),
      person: units.length(PERSON_M),
    }),
  );
  return h(
    'figure',
    { class: 'figure', part: 'figure' },
    s('svg', { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: 'img', 'aria-label': told.join(' ') }, parts),
    h('figcaption', {}, words.t('figure.caption', { person: units.length(PERSON_M) })),
  );
}

function ruler(units, topM, y) {
  const marks = units
    .ruler(topM)
    .flatMap(({ m, text }) => [
      s('line', { class: 'mark', x1: LEFT - 6, x2: WIDTH, y1: y(m), y2: y(m) }),
      s('text', { class: 'small', x: LEFT - 10, y: y(m) + 4, 'text-anchor': 'end' }, text),
    ]);
  return [
    ...marks,
    s('line', { class: 'rule', x1: LEFT - 6, x2: LEFT - 6, y1: y(topM), y2: GROUND }),
    s('text', { class: 'small', x: LEFT - 10, y: GROUND + 4, 'text-anchor': 'end' }, units.lengthUnit),
  ];
}

/** A person standing, 1.7 m: head, shoulders, legs. */
function person(x, ground, scale) {
  const at = (dx, up) => `${(x + dx * scale).toFixed(1)} ${(ground - up * scale).toFixed(1)}`;
  const side = (k) =>
    `C ${at(0.14 * k, 1.43)} ${at(0.22 * k, 1.4)} ${at(0.23 * k, 1.28)} L ${at(0.25 * k, 0.8)} ` +
    `C ${at(0.25 * k, 0.74)} ${at(0.18 * k, 0.74)} ${at(0.18 * k, 0.8)} L ${at(0.16 * k, 1.15)} L ${at(0.15 * k, 0.05)} ` +
    `C ${at(0.15 * k, 0)} ${at(0.03 * k, 0)} ${at(0.03 * k, 0.05)} L ${at(0, 0.72)} Z`;
  return s(
    'g',
    { class: 'person' },
    s('circle', { cx: x, cy: ground - 1.585 * scale, r: 0.115 * scale }),
    s('path', { d: `M ${at(0, 1.44)} ${side(1)} M ${at(0, 1.44)} ${side(-1)}` }),
  );
}

/** Crown at its likely height and width; a soft band from low to high; the stock, up to the union, in its own colour. */
function one(tree, x, y, scale, band) {
  const high = tree.heightM.likely;
  const base = Math.min(0.9, 0.3 * high);
  const trunk = Math.max(2, 0.02 * high * scale);
  const wide = (tree.spreadM.high * scale) / 2;
  return [
    s('rect', {
      fill: `url(#${band})`,
      x: x - wide,
      width: 2 * wide,
      y: y(tree.heightM.high),
      height: Math.max(2, (tree.heightM.high - tree.heightM.low) * scale),
    }),
    s('path', { class: 'crown', d: crown(x, y(base), y(high), (tree.spreadM.likely * scale) / 2) }),
    s('path', {
      class: 'wood',
      d: `M ${x - trunk} ${y(UNION_M)} L ${x - 0.6 * trunk} ${y(base + 0.35 * (high - base))} h ${1.2 * trunk} L ${x + trunk} ${y(UNION_M)} Z`,
    }),
    s('path', { class: 'roots', d: roots(x, y(UNION_M), trunk, Math.min(wide, 46)) }),
  ];
}

/** A rounded outline with shallow lobes. */
function crown(x, bottom, top, half) {
  const [middle, tall] = [(bottom + top) / 2, (bottom - top) / 2];
  const lobes = 9;
  const points = Array.from({ length: 2 * lobes }, (_, k) => {
    const angle = (Math.PI * k) / lobes - Math.PI / 2;
    const out = k % 2 === 0 ? 1 : 1.06;
    const flat = Math.sin(angle) > 0 ? 0.94 : 1;
    return [
      x + Math.max(-1, Math.min(1, out * Math.cos(angle))) * half,
      middle + Math.max(-1, out * Math.sin(angle)) * tall * flat,
    ];
  });
  let d = `M ${points[0].map((p) => p.toFixed(1)).join(' ')}`;
  for (let k = 1; k <= points.length; k += 2) {
    const [via, to] = [points[k % points.length], points[(k + 1) % points.length]];
    d += ` Q ${via.map((p) => p.toFixed(1)).join(' ')} ${to.map((p) => p.toFixed(1)).join(' ')}`;
  }
  return `${d} Z`;
}

function roots(x, union, trunk, reach) {
  const arm = (dx, dy) => `M ${x} ${GROUND - 1} Q ${x + 0.4 * dx} ${GROUND + 0.3 * dy} ${x + dx} ${GROUND + dy}`;
  return (
    `M ${x - trunk} ${union} L ${x - 1.25 * trunk} ${GROUND} h ${2.5 * trunk} L ${x + trunk} ${union} Z ` +
    `${arm(-reach, 12)} ${arm(reach, 12)} ${arm(-0.55 * reach, 22)} ${arm(0.5 * reach, 22)}`
  );
}

function named(words, tree, x) {
  return [
    s('text', { class: 'small', x, y: GROUND + 40, 'text-anchor': 'middle' }, words.t('figure.roots', { stock: tree.roots })),
  ];
}
