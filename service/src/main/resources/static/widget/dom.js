/**
 * Elements without markup: nothing here parses a string as HTML, so that the widget works on pages that allow
 * neither inline script nor inline style, and nothing that the service or a visitor writes can become markup.
 */
const SVG = 'http://www.w3.org/2000/svg';

/** An HTML element. Attributes that are null, undefined or false are left out; `onclick` and the like are listeners. */
export function h(tag, attributes = {}, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

/** The same for a drawing. */
export function s(tag, attributes = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? '' : String(value));
  }
  element.append(...children.flat(3).filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

let count = 0;

/** An id that no other element of the page's widgets has. */
export function freshId(stem) {
  count += 1;
  return `${stem}-${count}`;
}
