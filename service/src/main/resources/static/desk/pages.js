import { get } from './api.js';
import { el, problem } from './dom.js';

/**
 * Shows what comes in pages: the first in place of what was there, each further one below when it is asked for.
 *
 * @param {Element} list where
 * @param {(cursor?: string) => string} address of the first page, or of the one at the cursor
 * @param {(page: object) => Element} shown
 */
export async function pages(list, address, shown) {
  await show();

  async function show(cursor) {
    try {
      const page = await get(address(cursor));
      if (!cursor) list.replaceChildren();
      for (const before of list.querySelectorAll('.more, .problem')) before.remove();
      list.append(shown(page));
      if (page.next) list.append(el('button', { type: 'button', class: 'more', onclick: () => show(page.next) }, 'More'));
    } catch (failure) {
      // What is shown already stays; the button asks again.
      if (!cursor) list.replaceChildren();
      list.querySelector('.problem')?.remove();
      list.append(problem(failure));
    }
  }
}
