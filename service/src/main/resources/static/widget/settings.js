/** What the author of a page has set by attributes, and what follows from the page and the browser. */
import { CROPS } from './form.js';
import { LANGUAGES } from './words.js';

const ANSWERS = 6;

export function settingsOf(element) {
  const list = (name) => (element.getAttribute(name) ?? '').split(/[\s,]+/).filter(Boolean);
  const figure = (name) => {
    const value = parseFloat(element.getAttribute(name));
    return Number.isFinite(value) ? String(value) : '';
  };
  const crop = element.getAttribute('crop') ?? '';
  return {
    crop: CROPS.includes(crop) ? crop : '',
    varieties: list('varieties'),
    pairings: list('skus').map(pairingOf).filter(Boolean),
    ask: list('ask'),
    limit: ANSWERS,
    place: {
      cold: figure('coldest-night-c'),
      chill: figure('chill-hours'),
      drainage: element.getAttribute('drainage') ?? '',
      purpose: element.getAttribute('purpose') ?? '',
    },
  };
}

/** `stock/variety=SKU`. */
function pairingOf(text) {
  const parts = /^([^/=]+)\/([^/=]+)=(.+)$/.exec(text);
  return parts && { stock: parts[1], variety: parts[2], sku: parts[3] };
}

/** Which question a pointer into the request belongs to. */
export function fieldOf(pointer) {
  const known = [
    ['#/candidates/varieties', 'variety'],
    ['#/goal/spaceM/width', 'wide'],
    ['#/goal/spaceM/length', 'long'],
    ['#/goal/maxHeightM', 'reach'],
    ['#/site/coldestNightC', 'cold'],
    ['#/site/chillHours', 'chill'],
    ['#/site/soil/drainage', 'drainage'],
    ['#/goal/purpose', 'purpose'],
    ['#/crop', 'crop'],
  ];
  return known.find(([start]) => pointer.startsWith(start))?.[1] ?? null;
}

export function languageOf(element) {
  const near = element.closest('[lang]')?.getAttribute('lang') || document.documentElement.lang;
  for (const wanted of [near, ...navigator.languages].filter(Boolean)) {
    const found = LANGUAGES.find((lang) => wanted.toLowerCase().startsWith(lang));
    if (found) return found;
  }
  return LANGUAGES[0];
}

/** US customary where the page, or else the browser, speaks as in the United States. */
export function usual(element) {
  const near = element.closest('[lang]')?.getAttribute('lang') ?? '';
  return (near.includes('-') ? near : navigator.language).toLowerCase().endsWith('-us');
}
