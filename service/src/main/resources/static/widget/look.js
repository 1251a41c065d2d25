/**
 * How it looks: one sheet, made once, given to every widget of the page. A constructed sheet needs no inline style.
 * Plum, quince and slate differ in lightness too, and no sign stands by its colour alone. Every colour, the typeface
 * and the roundness of corners can be set from outside by a custom property `--understock-…`.
 */
const LIGHT = {
  ground: '#f7f7f4',
  panel: '#ffffff',
  ink: '#1c2530',
  soft: '#4d5866',
  line: '#d5d8d6',
  edge: '#7b8590',
  accent: '#6d2a55',
  'on-accent': '#ffffff',
  quince: '#e2b23a',
  good: '#5d8577',
  // Crown, wood and fruit as on the card.
  crown: '#009e73',
  wood: '#5f6368',
  fruit: '#d55e00',
  alarm: '#a3341c',
};
const DARK = {
  ground: '#161a20',
  panel: '#1f252d',
  ink: '#eceff1',
  soft: '#b3bcc6',
  line: '#39424d',
  edge: '#8994a1',
  accent: '#e3a6cc',
  'on-accent': '#2a0f20',
  quince: '#d9a92f',
  good: '#6f9d8d',
  crown: '#33c29a',
  wood: '#b3bcc6',
  fruit: '#f08a4b',
  alarm: '#ffac99',
};

function colours(table) {
  return Object.entries(table)
    .map(([name, value]) => `--_${name}: var(--understock-${name}, ${value});`)
    .join(' ');
}

const RULES = `
:host { display: block; container-type: inline-size; color-scheme: light; ${colours(LIGHT)}
  --_radius: var(--understock-radius, 6px);
  font-family: var(--understock-font, inherit); font-size: var(--understock-font-size, 1rem); line-height: 1.5;
  color: var(--_ink); text-align: start; }
:host([hidden]), [hidden] { display: none !important; }
@media (prefers-color-scheme: dark) { :host(:not([theme="light"])) { color-scheme: dark; ${colours(DARK)} } }
:host([theme="dark"]) { color-scheme: dark; ${colours(DARK)} }
* { box-sizing: border-box; }
h2, h3, h4, p, ul, dl, dd, figure, fieldset { margin: 0; padding: 0; border: 0; min-width: 0; }
h2, h3, h4 { font-family: var(--understock-heading-font, inherit); line-height: 1.25; text-wrap: balance; }
button, input, select { font: inherit; color: inherit; }
:focus-visible { outline: 3px solid var(--_accent); outline-offset: 2px; border-radius: 2px; }
[tabindex="-1"]:focus-visible { outline: none; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.frame { position: relative; background: var(--_ground); border: 1px solid var(--_line); border-radius: var(--_radius);
  padding: 1.25rem clamp(.9rem, 4cqi, 2rem) 1.5rem; overflow-wrap: break-word; }
.top { display: flex; flex-wrap: wrap; gap: .5rem 1rem; justify-content: space-between; align-items: baseline; margin-bottom: .9rem; }
.top h2 { font-size: 1.45rem; }
.switches { display: flex; gap: .25rem 1rem; flex-wrap: wrap; font-size: .9rem; }
.switch { background: none; border: 0; padding: .35rem .1rem; min-height: 2.2rem; cursor: pointer; text-decoration: underline; text-underline-offset: .2em; color: var(--_soft); }
.switch:hover { color: var(--_ink); }
.hint { color: var(--_soft); font-size: .92rem; }
.form { display: grid; gap: 1.5rem; }
.asks { display: block; font-weight: 650; font-size: 1.05rem; padding: 0; margin-bottom: .15rem; }
.question .hint { margin-bottom: .4rem; max-width: 62ch; }
.question { max-width: 46rem; }
.chips { display: flex; flex-wrap: wrap; gap: .5rem; margin-top: .35rem; }
.chip { position: relative; display: inline-flex; }
.chip input { position: absolute; inset: 0; width: 100%; height: 100%; margin: 0; opacity: 0; cursor: pointer; }
.chip span { display: inline-flex; align-items: center; min-height: 2.75rem; padding: .4rem .9rem; border: 1px solid var(--_edge); border-radius: var(--_radius); background: var(--_panel); }
.chip:hover span { border-color: var(--_accent); }
.chip input:checked + span { border-color: var(--_accent); background: var(--_accent); color: var(--_on-accent); }
.chip input:checked + span::before { content: "✓"; margin-inline-end: .45rem; font-weight: 700; }
.chip input:focus-visible + span { outline: 3px solid var(--_accent); outline-offset: 2px; }
.field { width: 100%; max-width: 26rem; min-height: 2.75rem; padding: .4rem .7rem; border: 1px solid var(--_edge); border-radius: var(--_radius); background: var(--_panel); }
.field[aria-invalid] { border: 2px solid var(--_alarm); }
.short { width: 6.5rem; }
.sides { display: flex; flex-wrap: wrap; align-items: flex-end; gap: .5rem .8rem; margin-top: .35rem; }
.side > span:first-child { display: block; font-size: .92rem; color: var(--_soft); }
.figured { display: inline-flex; align-items: center; gap: .4rem; }
.by { min-height: 2.75rem; display: inline-flex; align-items: center; }
.pick { position: relative; max-width: 26rem; }
.names { position: absolute; z-index: 5; inset-inline: 0; top: calc(100% + 2px); list-style: none; background: var(--_panel); border: 1px solid var(--_edge); border-radius: var(--_radius); max-height: 20rem; overflow: auto; box-shadow: 0 6px 18px rgb(0 0 0 / .18); }
.name { padding: .55rem .7rem; min-height: 2.75rem; cursor: pointer; }
.name:hover { text-decoration: underline; }
.name[aria-selected="true"] { background: var(--_accent); color: var(--_on-accent); }
.name .also { color: var(--_soft); font-size: .88rem; }
.name[aria-selected="true"] .also { color: inherit; }
.fault { color: var(--_alarm); font-weight: 600; margin-top: .35rem; }
.fault::before { content: "! "; }
.fault button { margin: .25rem .35rem 0 0; }
summary { cursor: pointer; padding: .55rem 0; font-weight: 600; min-height: 2.75rem; }
.pairs { display: grid; gap: 1.1rem 1.5rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 17rem), 1fr)); padding-top: .6rem; }
.actions { display: flex; flex-wrap: wrap; gap: .6rem; align-items: center; }
.button { display: inline-flex; align-items: center; justify-content: center; min-height: 2.75rem; padding: .45rem 1.1rem; border: 1px solid var(--_accent); border-radius: var(--_radius); background: var(--_panel); color: var(--_accent); cursor: pointer; text-decoration: none; font-weight: 600; }
.button:hover { text-decoration: underline; text-underline-offset: .2em; }
.main { background: var(--_accent); color: var(--_on-accent); }
.quiet { border-color: var(--_edge); color: var(--_ink); font-weight: 400; }
.trouble { margin-top: 1rem; padding: .9rem 1rem; border: 1px solid var(--_alarm); border-inline-start-width: 5px; border-radius: var(--_radius); background: var(--_panel); }
.trouble p + p, .trouble .actions { margin-top: .5rem; }
.trouble .count { font-variant-numeric: tabular-nums; }
.progress { display: flex; gap: .7rem; align-items: center; margin-top: 1rem; }
.progress::before { content: ""; flex: none; width: 1.1rem; height: 1.1rem; border: 3px solid var(--_line); border-top-color: var(--_accent); border-radius: 50%; animation: turn 1s linear infinite; }
@keyframes turn { to { transform: rotate(1turn); } }
@media (prefers-reduced-motion: reduce) { .progress::before { animation: none; } }
.asked { display: flex; flex-wrap: wrap; gap: .5rem 1rem; align-items: center; justify-content: space-between; padding-bottom: 1rem; border-bottom: 1px solid var(--_line); margin-bottom: 1rem; }
.result h2 { font-size: 1.35rem; margin-bottom: .35rem; }
.reach-text { max-width: 68ch; color: var(--_soft); margin-bottom: 1rem; }
.cards { display: grid; gap: 1rem; margin-bottom: 1rem; }
.card { display: grid; gap: .5rem 1.75rem; padding: 1.1rem clamp(.8rem, 3.5cqi, 1.5rem) 1.25rem; background: var(--_panel); border: 1px solid var(--_line); border-radius: var(--_radius); align-items: start; }
.told { display: grid; gap: .8rem; }
.told > *, .told li, .told p { max-width: 66ch; }
.pairing { font-size: 1.3rem; }
@container (min-width: 40rem) { .card { grid-template-columns: 14.5rem 1fr; } .drawn { position: sticky; top: .75rem; } }
@container (min-width: 58rem) { .card { grid-template-columns: 20rem 1fr; } }
.figure svg { display: block; width: 100%; max-width: 24rem; height: auto; margin-inline: auto; }
.figure figcaption { font-size: .85rem; color: var(--_soft); text-align: center; }
.small { font-size: 12px; fill: var(--_soft); font-family: inherit; }
.mark { stroke: var(--_line); stroke-width: 1; }
.rule, .soil { stroke: var(--_edge); stroke-width: 1.2; }
.soil { stroke-width: 2; }
.reach { stroke: var(--_accent); stroke-width: 1.4; stroke-dasharray: 5 4; }
.person { fill: var(--_ink); }
.person line { stroke: var(--_ink); stroke-linecap: round; }
.crown { fill: var(--_crown); fill-opacity: .28; stroke: var(--_ink); stroke-width: 1.8; }
.crown-high, .crown-low { fill: none; stroke: var(--_ink); stroke-width: 1; stroke-dasharray: 6 4; }
.crown-low { stroke-width: 1.2; stroke-dasharray: 1.5 3.5; }
.wood { fill: var(--_wood); }
.limb { stroke: var(--_wood); stroke-linecap: round; }
.fruit { fill: var(--_fruit); stroke: var(--_ink); stroke-width: .5; }
.roots { fill: var(--_accent); stroke: var(--_accent); stroke-width: 1.6; stroke-linecap: round; }
.points { font-size: 1.05rem; }
.points strong { font-size: 1.9rem; font-weight: 700; line-height: 1; font-variant-numeric: tabular-nums; }
.verdict { font-weight: 650; }
.bar { display: block; width: 100%; max-width: 26rem; height: .85rem; margin: .3rem 0; }
.bar-all { fill: var(--_line); }
.bar-range { fill: var(--_quince); }
.bar-at { fill: var(--_ink); }
.reasons { list-style: none; display: grid; gap: .5rem; }
.reasons li { position: relative; padding-inline-start: 2rem; }
.sign { position: absolute; inset-inline-start: 0; top: .1em; width: 1.35rem; height: 1.35rem; line-height: 1.3rem; text-align: center; font-weight: 700; border-radius: 50%; border: 1.5px solid currentColor; }
.for .sign { background: var(--_good); border-color: var(--_good); color: var(--_panel); }
.against .sign { color: var(--_ink); }
.caution .sign { border-radius: 3px; color: #1c2530; background: var(--_quince); border-color: var(--_quince); }
.facts { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 9rem), 1fr)); gap: .55rem 1.2rem; padding: .8rem 0; border-block: 1px solid var(--_line); }
.facts dt { font-size: .88rem; color: var(--_soft); }
.facts dd { font-weight: 600; }
@container (max-width: 27rem) { .facts { grid-template-columns: 1fr; } .facts > div { display: flex; gap: .8rem; justify-content: space-between; } .facts dd { text-align: end; } }
.sub { font-weight: 650; }
.plain { padding-inline-start: 1.15rem; display: grid; gap: .3rem; }
.fold > * + * { margin-top: .5rem; }
.term { display: inline; padding: 0; border: 0; background: none; font: inherit; line-height: max(1.5em, 24px); color: inherit; text-align: inherit; cursor: pointer; text-decoration: underline dotted; text-decoration-thickness: 2px; text-underline-offset: .22em; text-decoration-color: var(--_accent); }
.term:hover, .term[aria-expanded="true"] { color: var(--_accent); text-decoration-style: solid; }
.note { display: block; margin: .35rem 0; padding: .5rem .8rem; border-inline-start: 4px solid var(--_quince); background: var(--_panel); color: var(--_ink); font-weight: 400; font-size: .95rem; }
.card .note { background: var(--_ground); }
.whynot { display: grid; gap: .7rem; padding: 1.1rem 0; border-top: 1px solid var(--_line); }
.whynot h3 { font-size: 1.15rem; }
.whynot form { display: flex; flex-wrap: wrap; gap: .6rem; align-items: flex-end; }
.whynot form > div { flex: 1 1 15rem; max-width: 26rem; }
.compared { display: grid; gap: .8rem; max-width: 44rem; }
.grounds { display: grid; gap: .6rem; padding-top: 1.1rem; border-top: 1px solid var(--_line); font-size: .95rem; }
.grounds li, .grounds p { max-width: 76ch; }
@media (forced-colors: active) { .chip input:checked + span { outline: 3px solid Highlight; } .bar-range { fill: CanvasText; } .bar-all { fill: GrayText; } .crown { fill: none; } .crown, .crown-high, .crown-low { stroke: CanvasText; } .person { fill: GrayText; } }
@media print { .form, .switches, .whynot, .actions { display: none; } .card { break-inside: avoid; } }
`;

export const look = new CSSStyleSheet();
look.replaceSync(RULES);
