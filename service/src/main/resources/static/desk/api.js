/** A request that the service refused, or that never reached it (then without `problem`). */
export class Failure extends Error {
  constructor(status, problem) {
    super(problem?.detail ?? 'not reached');
    this.status = status;
    this.problem = problem;
  }
}

const KEY = 'understock-desk-token';

/** The token lives as long as this tab: it is a key, and desks are shared. */
export const token = {
  get: () => sessionStorage.getItem(KEY) ?? '',
  set: (value) => sessionStorage.setItem(KEY, value.trim()),
  clear: () => sessionStorage.removeItem(KEY),
};

/** What the token says of itself; the service alone decides whether it is good. */
export function claims() {
  try {
    const body = token.get().split('.')[1].replace(/-/g, '+').replace(/_/g, '/');
    const bytes = Uint8Array.from(atob(body), (c) => c.charCodeAt(0));
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return null;
  }
}

/** The rights in the token, as words. */
export function rights() {
  const scope = claims()?.scope ?? claims()?.scp ?? [];
  return Array.isArray(scope) ? scope : scope.split(' ');
}

/**
 * One call of the contract.
 *
 * @returns {Promise<any>} the JSON body
 * @throws {Failure}
 */
export async function call(method, path, { body, type = 'application/json', key } = {}) {
  const headers = { Accept: 'application/json, application/problem+json' };
  if (path.startsWith('/v1/curation')) headers.Authorization = `Bearer ${token.get()}`;
  if (body !== undefined) headers['Content-Type'] = type;
  if (key) headers['Idempotency-Key'] = key;
  let response;
  try {
    response = await fetch(path, {
      method,
      headers,
      // What was just accepted must be seen: lists that a browser kept are asked for anew.
      cache: 'no-cache',
      body: body === undefined || type !== 'application/json' ? body : JSON.stringify(body),
    });
  } catch {
    throw new Failure(0, null);
  }
  const text = await response.text();
  let told = null;
  try {
    told = text ? JSON.parse(text) : null;
  } catch {
    /* not ours: a proxy's page, say */
  }
  if (!response.ok) {
    throw new Failure(
      response.status,
      told?.title ? told : { title: `Refused (${response.status})`, detail: 'No reason was given.' },
    );
  }
  return told;
}

export const get = (path) => call('GET', path);

/** A query from fields; empty ones are left out. */
export function query(fields) {
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries(fields)) if (value) asked.set(name, value);
  const text = asked.toString();
  return text ? `?${text}` : '';
}

/** A key by which the service knows a repeated deed, so that a lost answer files nothing twice. */
export function deedKey() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, '0')).join('');
}
