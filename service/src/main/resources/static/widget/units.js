/**
 * Metric and US customary figures. The service speaks SI; only what is shown and typed is converted.
 */
const METRES_PER_FOOT = 0.3048; // exact, by the international yard and pound agreement of 1959
const KG_PER_POUND = 0.45359237; // exact, by the same

export class Units {
  /** @param {boolean} us whether figures are US customary @param {string} lang of the figures */
  constructor(us, lang) {
    this.us = us;
    this.lang = lang;
  }

  get id() {
    return this.us ? 'us-customary' : 'metric';
  }

  number(x, digits = 0) {
    return new Intl.NumberFormat(this.lang, { maximumFractionDigits: digits, minimumFractionDigits: 0 }).format(x);
  }

  get lengthUnit() {
    return this.us ? 'ft' : 'm';
  }

  /** Metres as typed and shown in this system, to a tenth as in the service's texts. */
  fromMetres(m) {
    return Math.round((10 * m) / (this.us ? METRES_PER_FOOT : 1)) / 10;
  }

  toMetres(x) {
    return this.us ? Math.round(100 * x * METRES_PER_FOOT) / 100 : x;
  }

  length(m) {
    return `${this.number(this.fromMetres(m), 1)} ${this.lengthUnit}`;
  }

  mass(kg) {
    return this.us ? `${this.number(kg / KG_PER_POUND)} lb` : `${this.number(kg, kg < 10 ? 1 : 0)} kg`;
  }

  temperature(c) {
    const shown = this.us ? Math.round(c * 1.8 + 32) : Math.round(c);
    return `${this.number(shown)} ${this.us ? '°F' : '°C'}`.replace('-', '−');
  }

  /** Marks of a ruler up to a height: metres or feet, few enough to be read. */
  ruler(topM) {
    const one = this.us ? METRES_PER_FOOT : 1;
    const step = this.us ? (topM > 9 ? 10 : topM > 3.6 ? 5 : 2) : topM > 6 ? 2 : 1;
    const marks = [];
    for (let k = step; k * one <= topM; k += step) marks.push({ m: k * one, text: this.number(k) });
    return marks;
  }
}

/** A figure as people type it, with a point or a comma; null where nothing is typed, NaN where it is no figure. */
export function figure(text) {
  const trimmed = text.trim().replace(',', '.');
  if (trimmed === '') return null;
  return /^-?\d+(\.\d+)?$/.test(trimmed) ? Number(trimmed) : NaN;
}
