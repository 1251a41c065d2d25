/**
 * Trees drawn to scale beside a person, with a ruler: nothing is drawn that is not in the answer. Crown, wood, fruit and person
 * have the proportions of the card's drawing (the service's TreeShape); a change of one belongs in the other.
 */
import { h, s } from './dom.js';

const WIDTH = 340;
const HEIGHT = 300;
const GROUND = 252;
const LEFT = 40;
const TOP = 14;
const PERSON_M = 1.7; // a grown person of middling height; a judgement
const REACH_M = 2.1; // with an arm up; a judgement
const GAP_M = 0.45;
const FRUIT = [[-0.3, 0.28], [0.24, 0.2], [0.33, 0.42], [-0.12, 0.5], [-0.3, 0.6], [0.16, 0.66], [0.02, 0.24]];
const UNION_M = 0.12; // a hand's breadth above the soil, as the cautions say

/**
 * @param {import('./words.js').Words} words
 * @param {import('./units.js').Units} units
 * @param {{fruit: string, roots: string, heightM: object, spreadM: object}[]} trees low, likely and high, in metres
 * @param {{reachM: number|null, topM: number}} frame how high the drawing goes, the same for all trees of an answer
 */
export function drawing(words, units, trees, frame) {
  const topM = Math.max(frame.topM, REACH_M + 0.1);
  const wide = trees.reduce((sum, t) => sum + GAP_M + t.spreadM.high, 0.75);
  const scale = Math.min((GROUND - TOP) / topM, (WIDTH - LEFT - 8) / wide);
  const y = (m) => GROUND - m * scale;
  const parts = [
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
    parts.push(...one(tree, x, y, scale));
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

/** A person who reaches up. */
function person(x, ground, scale) {
  const limb = (wide, x1, from, x2, to) =>
    s('line', {
      x1: x + x1 * scale, y1: ground - from * scale, x2: x + x2 * scale, y2: ground - to * scale, 'stroke-width': Math.max(0.8, wide * scale),
    });
  return s(
    'g',
    { class: 'person' },
    s('circle', { cx: x, cy: ground - 1.58 * scale, r: 0.115 * scale }),
    limb(0.28, 0, 1.27, 0, 0.98),
    limb(0.12, -0.07, 0.9, -0.1, 0.06),
    limb(0.12, 0.07, 0.9, 0.1, 0.06),
    limb(0.08, 0.17, 1.34, 0.27, 0.85),
    limb(0.08, -0.16, 1.36, -0.22, 2.06),
  );
}

/** The likely tree solid, the high one dashed and the low one dotted around it; the stock, up to the union, in its own colour. */
function one(tree, x, y, scale) {
  const { low, likely, high } = tree.heightM;
  const trunk = Math.max(1.6, 0.035 * likely * scale);
  const clear = clearM(likely);
  const fork = clear + 0.3 * (likely - clear);
  const reach = 0.3 * tree.spreadM.likely * scale;
  return [
    s('path', { class: 'crown-high', d: crown(x, y, high, tree.spreadM.high * scale) }),
    s('path', { class: 'crown', d: crown(x, y, likely, tree.spreadM.likely * scale) }),
    s('path', {
      class: 'wood',
      d: `M${x - trunk} ${y(UNION_M)}L${x - 0.6 * trunk} ${y(fork)}L${x} ${y(0.86 * likely)}L${x + 0.6 * trunk} ${y(fork)}L${x + trunk} ${y(UNION_M)}Z`,
    }),
    ...[-1, 1, -0.7].map((side) => {
      const from = fork + (side === -0.7 ? 0.22 * (likely - fork) : 0);
      return s('line', {
        class: 'limb', x1: x, y1: y(from), x2: x + side * reach, y2: y(from + 0.3 * (likely - fork)), 'stroke-width': Math.max(1, 0.55 * trunk),
      });
    }),
    ...FRUIT.map(([across, up]) =>
      s('circle', {
        class: 'fruit',
        cx: x + across * tree.spreadM.likely * scale,
        cy: y(clear + up * (likely - clear)),
        r: Math.max(1.6, Math.min(4, 0.06 * scale)),
      }),
    ),
    s('path', { class: 'crown-low', d: crown(x, y, low, tree.spreadM.low * scale) }),
    s('path', { class: 'roots', d: roots(x, y(UNION_M), trunk, Math.min((tree.spreadM.high * scale) / 2, 46)) }),
  ];
}

/** Height of the stem below the crown. */
function clearM(heightM) {
  return Math.min(0.45 + 0.1 * heightM, 0.34 * heightM);
}

/** The outline of a crown: an egg, widest below its middle. */
function crown(x, y, heightM, spread) {
  const [base, top] = [y(clearM(heightM)), y(heightM)];
  const [wide, narrow] = [0.826 * spread, 0.462 * spread];
  return `M${x} ${base}C${x - wide} ${base} ${x - narrow} ${top} ${x} ${top}C${x + narrow} ${top} ${x + wide} ${base} ${x} ${base}Z`;
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
