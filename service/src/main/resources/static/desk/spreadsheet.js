/** What programs for spreadsheets write, made into what the service reads: commas between columns, decimal points. */

/** Bytes of a file as text: UTF-8, or else what older programs write. @returns {{text: string, told: string[]}} */
export function decoded(bytes) {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), told: [] };
  } catch {
    return {
      text: new TextDecoder('windows-1252').decode(bytes),
      told: ['The file was not UTF-8 and was read as Windows-1252: look at the letters with accents.'],
    };
  }
}

/**
 * Rewrites semicolons or tabs to commas, and then decimal commas to points. A row stays on its line.
 *
 * @param {string} text
 * @returns {{text: string, told: string[]}} what was done, in sentences; nothing when the text can stand as it is
 */
export function plain(text) {
  const head = text.split(/\r?\n/, 1)[0];
  const between = [';', '\t'].find((mark) => head.includes(mark) && !head.includes(','));
  if (!between) return { text, told: [] };
  const told = [`${between === ';' ? 'Semicolons' : 'Tabs'} between columns became commas.`];
  const rows = cells(text, between);
  let points = 0;
  for (const row of rows)
    row.forEach((cell, k) => {
      if (!/^\s*[-+]?\d+,\d+\s*$/.test(cell)) return;
      row[k] = cell.trim().replace(',', '.');
      points += 1;
    });
  if (points) told.push(`${points} decimal ${points === 1 ? 'comma' : 'commas'} became points.`);
  return { text: written(rows), told };
}

/** The same rows without some columns, and with others that hold nothing yet. */
export function recolumned(text, without, missing) {
  const rows = cells(text, ',');
  const kept = rows[0].map((name) => !without.includes(name));
  return written(
    rows.map((row, k) => {
      if (row.length === 1 && row[0] === '') return row;
      return [...row.filter((_, at) => kept[at] ?? true), ...missing.map((name) => (k === 0 ? name : ''))];
    }),
  );
}

/** Rows of cells, by RFC 4180 but for the mark between columns. */
function cells(text, between) {
  const rows = [[]];
  let cell = '';
  let inQuotes = false;
  const body = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n').replace(/\n$/, '');
  for (let k = 0; k < body.length; k += 1) {
    const c = body[k];
    if (inQuotes) {
      if (c !== '"') cell += c;
      else if (body[k + 1] === '"') cell += body[++k];
      else inQuotes = false;
    } else if (c === '"' && cell === '') inQuotes = true;
    else if (c === between || c === '\n') {
      rows.at(-1).push(cell);
      cell = '';
      if (c === '\n') rows.push([]);
    } else cell += c;
  }
  rows.at(-1).push(cell);
  return rows;
}

const written = (rows) => rows.map((row) => row.map(quoted).join(',')).join('\n') + '\n';
const quoted = (cell) => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
