/**
 * <understock-advice>: asks what somebody wants to grow and where, and shows which tree suits, with reasons.
 * See README of the service for the attributes, events, parts and properties.
 *
 * Needs of the page: scripts, and connections, to the address that serves this file; nothing inline, no eval.
 */
import { answered, groundsOf } from './answer.js';
import { Service, Trouble } from './asking.js';
import { comparison, nearest } from './comparison.js';
import { h } from './dom.js';
import { questions, showFaults, told } from './form.js';
import { look } from './look.js';
import { NOTHING, faults, request } from './request.js';
import { fieldOf, languageOf, settingsOf, usual } from './settings.js';
import { Units } from './units.js';
import { LANGUAGES, wordsIn } from './words.js';

const HOME = new URL('../', import.meta.url).href;
const SLOW_MS = 3000;
const OWN = [
  'api', 'ask', 'chill-hours', 'choose', 'coldest-night-c', 'crop', 'drainage', 'heading', 'lang', 'purpose', 'skus', 'theme', 'units', 'varieties',
];

export class UnderstockAdvice extends HTMLElement {
  static observedAttributes = OWN.filter((name) => name !== 'theme');

  #root = this.attachShadow({ mode: 'open' });
  #body = h('div', { class: 'frame', part: 'frame' });
  #says = h('p', { class: 'unseen', role: 'status' });
  #told = null;
  #words = null;
  #units = null;
  #form = null;
  #lang = null;
  #us = null;
  #set = null;
  #names = new Map();
  #service = null;
  #asking = new AbortController();
  #comparing = null;
  #result = null;
  #due = false;

  constructor() {
    super();
    this.#root.adoptedStyleSheets = [look];
    this.#root.append(this.#body, this.#says);
    this.#root.addEventListener('say', (event) => this.#say(event.detail));
  }

  connectedCallback() {
    this.#told ??= this.#remembered();
    this.#soon();
  }

  disconnectedCallback() {
    this.#asking.abort();
    this.#comparing?.();
  }

  attributeChangedCallback(name, before, now) {
    if (before === now || !this.#set) return;
    if (name === 'lang') this.#lang = null;
    if (name === 'units') this.#us = null;
    this.#keep();
    // What was asked under the old settings no longer holds; a place that the page sets anew goes before the old.
    if (!['lang', 'units', 'heading', 'choose'].includes(name)) this.#result = null;
    if (['chill-hours', 'coldest-night-c', 'drainage', 'purpose', 'crop'].includes(name)) this.#told = { ...this.#told, ...settingsOf(this).place, crop: this.#told.crop };
    this.#soon();
  }

  /** The last answer of the service, or null. */
  get advice() {
    return this.#result?.answer ?? null;
  }

  /** Several attributes that change at once are one change. */
  #soon() {
    if (this.#due) return;
    this.#due = true;
    queueMicrotask(() => {
      this.#due = false;
      if (this.isConnected) this.#begin();
    });
  }

  async #begin() {
    this.#set = settingsOf(this);
    const lang = this.#lang ?? languageOf(this);
    this.#us ??= (this.getAttribute('units') ?? '') === '' ? usual(this) : this.getAttribute('units') === 'us-customary';
    const units = new Units(this.#us, lang);
    try {
      this.#words = await wordsIn(lang);
    } catch {
      return this.#wordless();
    }
    if (!this.isConnected) return;
    this.#units = units;
    this.#service = new Service(new URL(this.getAttribute('api') || HOME, document.baseURI).href, lang);
    if (this.#set.varieties.length > 1) await this.#learnNames();
    this.#show();
    if (this.#told.asked && !this.#result) this.#ask(false);
  }

  /** Names of the varieties that the page has set; where they can't be had now, their ids stand. */
  async #learnNames() {
    await Promise.all(
      this.#set.varieties
        .filter((id) => !this.#names.has(id))
        .map(async (id) => {
          const found = await this.#service.get(`v1/varieties/${encodeURIComponent(id)}`).catch(() => null);
          if (found) this.#names.set(id, found.name);
        }),
    );
  }

  #wordless() {
    this.#body.replaceChildren(
      h(
        'div',
        { role: 'alert', class: 'trouble' },
        h('p', { lang: 'en' }, 'This part of the page could not be loaded. Check the connection, then try again.'),
        h('p', { lang: 'es' }, 'Esta parte de la página no se pudo cargar. Revise la conexión e inténtelo de nuevo.'),
        h('button', { type: 'button', class: 'button', onclick: () => this.#begin() }, 'Try again · Reintentar'),
      ),
    );
  }

  /** Draws it all anew: at first, and when the language or the units change. */
  #show() {
    const words = this.#words;
    this.#body.setAttribute('lang', words.lang);
    this.#form = questions(
      {
        words,
        units: this.#units,
        told: this.#told,
        set: this.#set,
        names: this.#names,
        find: (kind, q, crop, signal) => this.#find(kind, q, crop, signal),
      },
      () => this.#ask(true),
      () => this.#clear(),
    );
    const heading = this.getAttribute('heading') ?? words.t('heading');
    this.#body.replaceChildren(
      h('div', { class: 'top' }, heading && h('h2', { part: 'heading' }, heading), this.#switches()),
      this.#form,
      h('div', { class: 'state' }),
      h('div', { class: 'result', part: 'result' }),
    );
    if (this.#result) this.#showResult(false);
  }

  #switches() {
    const words = this.#words;
    const other = LANGUAGES.find((lang) => lang !== words.lang);
    return h(
      'div',
      { class: 'switches', part: 'switches' },
      h('button', { type: 'button', class: 'switch', lang: other, onclick: () => this.#turn(other, this.#us) }, words.t('switch.lang')),
      h('button', { type: 'button', class: 'switch', onclick: () => this.#turn(this.#words.lang, !this.#us) }, words.t(this.#us ? 'switch.metric' : 'switch.us')),
    );
  }

  /** Another language or other units: what was typed stays, in the new units; an answer is asked for again. */
  async #turn(lang, us) {
    this.#keep();
    if (us !== this.#us) {
      const now = new Units(us, lang);
      for (const side of ['wide', 'long']) {
        const typed = parseFloat(this.#told[side].replace(',', '.'));
        if (Number.isFinite(typed)) this.#told[side] = String(now.fromMetres(this.#units.toMetres(typed)));
      }
    }
    const again = this.#result !== null;
    const focus = [...this.#root.querySelectorAll('.switch')].indexOf(this.#root.activeElement);
    this.#result = null;
    this.#lang = lang;
    this.#us = us;
    this.#told.asked = again;
    await this.#begin();
    this.#root.querySelectorAll('.switch')[focus]?.focus();
  }

  async #find(kind, q, crop, signal) {
    const query = new URLSearchParams({ q, limit: '7' });
    if (crop) query.set('crop', crop);
    return (await this.#service.get(`v1/${kind}?${query}`, signal)).items;
  }

  #clear() {
    this.#asking.abort();
    this.#told = { ...NOTHING, ...this.#set.place, crop: this.#set.crop };
    this.#result = null;
    this.#remember();
    this.#show();
    this.#form.querySelector('input, select')?.focus();
  }

  async #ask(byHand) {
    this.#keep();
    if (showFaults(this.#form, this.#inWords(faults(this.#told, this.#set)))) return;
    this.#asking.abort();
    this.#asking = new AbortController();
    const { signal } = this.#asking;
    const body = request(this.#told, this.#set, this.#units);
    this.#emit('understock-asked', { request: body });
    const state = this.#root.querySelector('.state');
    const busy = () => state.replaceChildren(h('p', { class: 'progress' }, this.#words.t('busy')));
    busy();
    this.#say(this.#words.t('busy'));
    const slow = setTimeout(() => {
      const line = state.querySelector('.progress');
      if (line) line.textContent = this.#words.t('busy.slow');
    }, SLOW_MS);
    try {
      const answer = await this.#service.postUntilAnswered('v1/advice', body, signal, (trouble, seconds, now) =>
        this.#wait(state, trouble, seconds, () => (busy(), now())),
      );
      state.replaceChildren();
      this.#result = { body, answer, why: null };
      this.#told.asked = true;
      this.#remember();
      this.#showResult(byHand);
      this.#emit('understock-answered', { request: body, advice: answer });
    } catch (error) {
      if (signal.aborted) return;
      if (!(error instanceof Trouble)) throw error;
      state.replaceChildren();
      this.#refused(error, state);
      this.#emit('understock-failed', { status: error.status, kind: error.kind });
    } finally {
      clearTimeout(slow);
    }
  }

  /** Says what happened and when it is tried again; the counting down is seen, not read out. */
  #wait(state, trouble, seconds, now) {
    const words = this.#words;
    const count = h('span', { class: 'count', 'aria-hidden': 'true' });
    let left = seconds;
    const tick = () => {
      if (!count.isConnected && left !== seconds) return clearInterval(clock);
      count.textContent = words.t('wait.count', { n: Math.max(0, left) });
      left -= 1;
      if (left < -1) {
        clearInterval(clock);
        state.replaceChildren(h('p', { class: 'progress' }, words.t('busy')));
      }
    };
    const clock = setInterval(tick, 1000);
    tick();
    state.replaceChildren(
      h(
        'div',
        { class: 'trouble', part: 'error', role: 'alert' },
        h('p', {}, h('strong', {}, words.t(`trouble.${trouble.kind}`)), ` ${words.t('trouble.kept')}`),
        h('p', {}, count),
        h('div', { class: 'actions' }, h('button', { type: 'button', class: 'button', part: 'button retry', onclick: now }, words.t('trouble.now'))),
      ),
    );
    this.#emit('understock-failed', { status: trouble.status, kind: trouble.kind });
  }

  /** A refusal is told where its field is; what belongs to no question is told below them. */
  #refused(trouble, state) {
    const words = this.#words;
    const byField = {};
    const loose = [];
    for (const error of trouble.problem?.errors ?? []) {
      const field = fieldOf(error.pointer ?? '');
      const shown = field && this.#form.querySelector(`[data-fault="${field}"]`);
      const text = error.nearest ? this.#nearest(field, error.nearest) : [`${error.detail}.`];
      if (shown) byField[field] = text;
      else loose.push(error.detail);
    }
    if (showFaults(this.#form, byField) && loose.length === 0) return;
    const title = words.t(`trouble.${trouble.kind}`);
    const details = loose.length > 0 ? loose : trouble.problem?.detail ? [trouble.problem.detail] : [];
    state.replaceChildren(
      h(
        'div',
        { class: 'trouble', part: 'error', role: 'alert' },
        h('p', {}, h('strong', {}, title), ` ${words.t('trouble.kept')}`),
        details.map((detail) => h('p', {}, detail)),
        trouble.passes && h('div', { class: 'actions' }, h('button', { type: 'button', class: 'button', onclick: () => this.#ask(true) }, words.t('trouble.now'))),
      ),
    );
  }

  #nearest(field, ids) {
    return nearest(this.#words, ids, (id) => {
      this.#form.querySelector(`[name="${field}"]`).value = id;
      this.#ask(true);
    });
  }

  #showResult(moveThere) {
    const words = this.#words;
    const { answer, body } = this.#result;
    const context = {
      words,
      units: this.#units,
      body,
      answer,
      cardOf: (p) => this.#card(p),
      choose: this.hasAttribute('choose') || this.#set.pairings.length > 0 ? (p) => this.#choose(p) : null,
    };
    const heading = h('h2', { tabindex: '-1' }, words.t(answer.pairings.length > 0 ? 'answer.heading' : 'answer.nothing'));
    const result = this.#root.querySelector('.result');
    const change = h('button', { type: 'button', class: 'button quiet', part: 'button', onclick: () => this.#reopen(change) }, words.t('answer.change'));
    result.replaceChildren(
      h('div', { class: 'asked' }, h('p', {}, this.#summary()), change),
      heading,
      ...answered(context).filter(Boolean),
    );
    if (answer.pairings.length > 0) result.append(this.#whyNot(answer.pairings[0]));
    else result.append(h('ul', { class: 'plain' }, answer.ruledOut.slice(0, 5).map((r) => h('li', {}, `${words.t('answer.pairing', { variety: r.variety.name, stock: r.stock.name })}: ${r.limits[0].text}`))));
    result.append(groundsOf(context));
    this.#form.hidden = true;
    this.#say(words.t('answer.said', { n: answer.pairings.length }));
    if (moveThere) {
      heading.focus({ preventScroll: true });
      heading.scrollIntoView({ block: 'start', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
    }
  }

  #reopen(button) {
    this.#form.hidden = false;
    button.hidden = true;
    this.#form.scrollIntoView({ block: 'start' });
    this.#form.querySelector('input:checked, input, select')?.focus();
  }

  /** What was told, in one line. */
  #summary() {
    const words = this.#words;
    const t = this.#told;
    const crop = this.#result.answer.crop;
    const parts = [words.t(`crop.${crop}`)];
    // As the service calls it, not as it was typed.
    if (t.variety) parts.push((this.#result.answer.pairings[0] ?? this.#result.answer.ruledOut[0])?.variety.name ?? t.variety);
    if (t.wide && t.long) parts.push(`${t.wide} × ${t.long} ${this.#units.lengthUnit}`);
    if (t.reach && t.reach !== 'any') parts.push(words.t('summary.reach', { h: this.#units.length(Number(t.reach)) }));
    if (t.drainage) parts.push(words.t(`summary.${t.drainage}`));
    if (t.cold !== '') parts.push(words.t('summary.cold', { t: this.#units.temperature(Number(t.cold)) }));
    return parts.join(' · ');
  }

  #card(pairing) {
    const path = `v1/pairings/${encodeURIComponent(pairing.stock.id)}/${encodeURIComponent(pairing.variety.id)}`;
    const query = new URLSearchParams({ lang: this.#units.lang, units: this.#units.id });
    return this.#service.address(`${path}?${query}`);
  }

  #choose(pairing) {
    this.#say(this.#words.t('answer.chosen', { variety: pairing.variety.name, stock: pairing.stock.name }));
    this.#emit('understock-chosen', {
      stock: pairing.stock,
      variety: pairing.variety,
      sku: pairing.sku ?? null,
      score: pairing.score,
      card: this.#card(pairing),
    });
  }

  #whyNot(best) {
    const { answer, body } = this.#result;
    this.#comparing?.();
    const { node, stop } = comparison({
      words: this.#words,
      units: this.#units,
      body: { ...body, crop: answer.crop },
      best,
      find: (q, signal) => this.#find('stocks', q, answer.crop, signal),
      post: (asked, signal, waiting) => this.#service.postUntilAnswered('v1/advice', asked, signal, waiting),
      wait: (place, trouble, seconds, now) => this.#wait(place, trouble, seconds, now),
    });
    this.#comparing = stop;
    return node;
  }

  #inWords(keys) {
    return Object.fromEntries(Object.entries(keys).map(([field, key]) => [field, [this.#words.t(key)]]));
  }

  #say(text) {
    this.#says.textContent = text;
  }

  #emit(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true, detail }));
  }

  #keep() {
    if (this.#form) this.#told = { ...told(this.#form, this.#set), asked: this.#told.asked };
    this.#remember();
  }

  get #shelf() {
    return `understock-advice:${location.pathname}#${this.id}:${this.getAttribute('crop') ?? ''}`;
  }

  /** What was typed lasts as long as the tab, so that the way back from a card does not begin at nothing. */
  #remember() {
    try {
      sessionStorage.setItem(this.#shelf, JSON.stringify(this.#told));
    } catch {
      // A browser that keeps nothing for this page: then nothing is kept.
    }
  }

  #remembered() {
    const fresh = { ...NOTHING, ...settingsOf(this).place, crop: settingsOf(this).crop, asked: false };
    try {
      const kept = JSON.parse(sessionStorage.getItem(this.#shelf) ?? '{}');
      for (const [name, value] of Object.entries(fresh)) {
        if (typeof kept[name] !== typeof value || Array.isArray(kept[name]) !== Array.isArray(value)) delete kept[name];
      }
      return { ...fresh, ...kept };
    } catch {
      return fresh;
    }
  }
}

if (!customElements.get('understock-advice')) customElements.define('understock-advice', UnderstockAdvice);
