/** Cells of a table for a spreadsheet: quoted by RFC 4180, and never taken for a formula or a number. */

/** So that a spreadsheet reads the file as UTF-8. */
export const byteOrderMark = "\ufeff";

export function quotedCell(text: string): string {
  return `"${asText(text).replaceAll('"', '""')}"`;
}

/**
 * Text that a spreadsheet would calculate or count is put behind an apostrophe: what begins like a formula (the full-width
 * signs too), what is only digits and their signs. Also inside a cell behind a semicolon, which some spreadsheets split at.
 */
function asText(text: string): string {
  const safe = text.replace(/(;\s*)(?=[=+\-@＝＋－＠])/g, "$1'");
  const formula = /^\s*[=+\-@＝＋－＠]/.test(safe);
  const number = /\d/.test(safe) && /^[\s\d.,:/%-]+(?:[eE]\d+)?$/.test(safe);
  return formula || number ? `'${safe}` : safe;
}
