import { get } from './api.js';
import { words } from './words.js';

let known = null;

/** Crops as choices; none when the service does not answer, which the page tells by itself. */
export async function crops() {
  try {
    known ??= (await get('/v1/crops')).items.map((c) => [c.id, c.name ?? words(c.id)]);
    return known;
  } catch {
    return [];
  }
}
