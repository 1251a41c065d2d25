/** From what a person told to the body of `POST /v1/advice`. Pure: no page, no network. */
import { figure } from './units.js';

/** What the questions begin with: nothing told. */
export const NOTHING = {
  crop: '',
  variety: '',
  wide: '',
  long: '',
  reach: '',
  drainage: '',
  cold: '',
  chill: '',
  purpose: '',
  matters: [],
  support: '',
  care: '',
  irrigation: '',
  wind: '',
  replant: '',
};

const TOP_PRIORITY = 5;

/**
 * Figures that can't be meant, by field, as keys of messages; the service checks all else.
 *
 * @param {typeof NOTHING} told
 * @param {object} set what the page's author has set
 */
export function faults(told, set) {
  const found = {};
  if (!told.crop && set.pairings.length === 0) found.crop = 'fault.crop';
  for (const side of ['wide', 'long']) {
    const value = figure(told[side]);
    if (Number.isNaN(value) || (value !== null && value <= 0)) found[side] = 'fault.figure';
  }
  if (!found.wide && !found.long && (figure(told.wide) === null) !== (figure(told.long) === null)) {
    found[figure(told.wide) === null ? 'wide' : 'long'] = 'fault.both-sides';
  }
  return found;
}

/**
 * @param {typeof NOTHING} told
 * @param {object} set `varieties`, `pairings` with their SKUs, `limit`
 * @param {import('./units.js').Units} units
 */
export function request(told, set, units) {
  const [wide, long] = [figure(told.wide), figure(told.long)];
  const varieties = told.variety.trim() ? [told.variety.trim()] : set.varieties;
  return lean({
    crop: told.crop,
    site: {
      coldestNightC: number(told.cold),
      chillHours: number(told.chill),
      soil: { drainage: told.drainage, replant: told.replant === '' ? '' : told.replant === 'yes' },
      irrigation: told.irrigation,
      wind: told.wind,
    },
    goal: {
      purpose: told.purpose,
      maxHeightM: number(told.reach),
      spaceM: wide === null || long === null ? '' : { width: units.toMetres(wide), length: units.toMetres(long) },
      care: told.care,
      support: told.support,
      priorities: Object.fromEntries(told.matters.map((criterion) => [criterion, TOP_PRIORITY])),
    },
    candidates: set.pairings.length > 0 ? { pairings: set.pairings } : varieties.length > 0 ? { varieties } : '',
    bestPer: varieties.length === 1 || set.pairings.length > 0 ? '' : 'variety',
    limit: set.limit,
    units: units.id,
  });
}

/** The same place and goal for two stocks under one variety: the one a person names, and the one that was advised. */
export function whyNot(body, stock, best) {
  const { bestPer, candidates, ...rest } = body;
  const variety = best.variety.id;
  return {
    ...rest,
    candidates: {
      pairings: [
        { stock, variety },
        { stock: best.stock.id, variety },
      ],
    },
    limit: 2,
  };
}

function number(text) {
  return text === '' || text === 'any' ? '' : Number(text);
}

/** Without what was not told. */
function lean(value) {
  if (Array.isArray(value) || typeof value !== 'object') return value;
  const kept = Object.entries(value)
    .map(([name, part]) => [name, lean(part)])
    .filter(([, part]) => part !== '' && part !== undefined && !isEmpty(part));
  return Object.fromEntries(kept);
}

function isEmpty(value) {
  return typeof value === 'object' && !Array.isArray(value) && Object.keys(value).length === 0;
}
