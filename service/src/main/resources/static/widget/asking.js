/**
 * Asks the service, and goes on asking when the line or the service is away for a while. What was typed is not
 * this module's to lose: it only ever holds the request.
 */
const PATIENCE_MS = 25_000;
const LONGEST_WAIT_S = 30;
const ATTEMPTS = 12;

/** Why an answer did not come. */
export class Trouble extends Error {
  /**
   * @param {'offline'|'unreachable'|'slow'|'busy'|'fault'|'refused'} kind
   * @param {{status?: number, retryAfterS?: number, problem?: object}} details
   */
  constructor(kind, details = {}) {
    super(kind);
    this.kind = kind;
    this.status = details.status ?? 0;
    this.retryAfterS = details.retryAfterS ?? null;
    this.problem = details.problem ?? null;
  }

  /** Whether the same request may well be answered later. */
  get passes() {
    return this.kind !== 'refused';
  }
}

export class Service {
  /** @param {string} base address of the service @param {string} lang of its texts */
  constructor(base, lang) {
    this.base = base.endsWith('/') ? base : `${base}/`;
    this.lang = lang;
  }

  address(path) {
    return new URL(path, this.base).href;
  }

  get(path, signal) {
    return this.#once(path, { method: 'GET' }, signal);
  }

  post(path, body, signal) {
    return this.#once(
      path,
      { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) },
      signal,
    );
  }

  /**
   * Posts until there is an answer or a refusal.
   *
   * @param {(trouble: Trouble, seconds: number, now: () => void) => void} waiting told before each wait; `now` ends it
   */
  async postUntilAnswered(path, body, signal, waiting) {
    for (let attempt = 0; ; attempt += 1) {
      try {
        return await this.post(path, body, signal);
      } catch (trouble) {
        if (!(trouble instanceof Trouble) || !trouble.passes || attempt + 1 >= ATTEMPTS) throw trouble;
        const seconds = Math.min(trouble.retryAfterS ?? 2 ** (attempt + 1), trouble.retryAfterS ? 3600 : LONGEST_WAIT_S);
        await pause(seconds, signal, (now) => waiting(trouble, seconds, now));
      }
    }
  }

  async #once(path, init, signal) {
    const patience = new AbortController();
    const clock = setTimeout(() => patience.abort(), PATIENCE_MS);
    const stop = () => patience.abort();
    signal?.addEventListener('abort', stop);
    try {
      const response = await fetch(this.address(path), {
        ...init,
        headers: { Accept: 'application/json', 'Accept-Language': this.lang, ...init.headers },
        credentials: 'omit',
        signal: patience.signal,
      });
      if (response.ok) return await response.json();
      throw await troubleOf(response);
    } catch (error) {
      if (signal?.aborted) throw new DOMException('No longer asked.', 'AbortError');
      if (error instanceof Trouble) throw error;
      if (patience.signal.aborted) throw new Trouble('slow');
      throw new Trouble(navigator.onLine ? 'unreachable' : 'offline');
    } finally {
      clearTimeout(clock);
      signal?.removeEventListener('abort', stop);
    }
  }
}

async function troubleOf(response) {
  const details = { status: response.status, retryAfterS: retryAfter(response.headers.get('Retry-After')) };
  if (response.status === 429 || response.status === 503) return new Trouble('busy', details);
  if (response.status >= 500) return new Trouble('fault', details);
  details.problem = await response.json().catch(() => null);
  return new Trouble('refused', details);
}

/** Seconds, of the header's two forms (RFC 9110, 10.2.3). */
function retryAfter(header) {
  if (header === null || header.trim() === '') return null;
  if (/^\d+$/.test(header.trim())) return Math.max(1, Number(header));
  const date = Date.parse(header);
  return Number.isNaN(date) ? null : Math.max(1, Math.ceil((date - Date.now()) / 1000));
}

/** Ends after the time, when the line is back, or when told to. */
function pause(seconds, signal, started) {
  return new Promise((resolve, reject) => {
    const end = () => {
      clearTimeout(clock);
      removeEventListener('online', end);
      signal.removeEventListener('abort', end);
      if (signal.aborted) reject(new DOMException('No longer asked.', 'AbortError'));
      else resolve();
    };
    const clock = setTimeout(end, 1000 * seconds);
    addEventListener('online', end);
    signal.addEventListener('abort', end);
    started(end);
  });
}
