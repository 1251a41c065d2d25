/** Words for what the service tells: subjects, values, estimates. */

export const words = (slug) => String(slug).replaceAll('-', ' ');

export function subject(s) {
  const plant = [s.variety, s.stock].filter(Boolean).join(' on ');
  return `${plant}, ${words(s.crop)}${s.reach && s.reach !== 'named' ? ` (${s.reach})` : ''}`;
}

const figure = (x) => (x === undefined ? '' : Number(x.toPrecision(3)).toString());

export function value(v) {
  const unit = v.unit ? ` ${v.unit}` : '';
  if (v.level) return words(v.level);
  if (v.name) return v.name;
  if (v.quantity !== undefined) return `${v.quantity}${unit}`;
  return [v.low ?? '…', v.high ?? '…'].join(' to ') + unit;
}

export function context(c) {
  if (!c) return '';
  return [
    c.trial && `trial ${c.trial}`,
    c.site,
    c.scion && `under ${c.scion}`,
    c.plantedYear && `planted ${c.plantedYear}`,
    c.measuredYear && `measured ${c.measuredYear}`,
    c.trees && `${c.trees} trees`,
    c.spread && `${c.spread.kind} ${c.spread.value}`,
  ]
    .filter(Boolean)
    .join(', ');
}

/** One estimate in a line. */
export function estimate(e) {
  if (!e) return 'not known';
  const tail = `, grade ${e.grade}, ${e.sources} ${e.sources === 1 ? 'source' : 'sources'}`;
  if (e.kind === 'levels') {
    const likely = [...e.levels].sort((a, b) => b.probability - a.probability).slice(0, 2);
    return likely.map((l) => `${words(l.level)} ${Math.round(100 * l.probability)} %`).join(', ') + tail;
  }
  if (e.kind === 'names') return e.names.map((n) => n.name).join(', ') + tail;
  if (e.kind === 'not-comparable') return `not comparable${tail}`;
  const unit = e.unit ? ` ${e.unit}` : '';
  const against = e.reference ? ` × ${e.reference}` : '';
  return `${figure(e.value)}${unit}${against} (${figure(e.low)} to ${figure(e.high)})${tail}`;
}

export const day = (instant) => (instant ? instant.slice(0, 16).replace('T', ' ') : '');
