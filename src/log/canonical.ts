/**
 * JSON text that is the same for the same value, whoever wrote it: keys sorted by UTF-16 code units, no white space,
 * numbers and strings as ECMAScript writes them. Source: RFC 8785, JSON Canonicalization Scheme, section 3.2.
 * Fields that are undefined are left out, as in JSON. Throws on what JSON cannot carry unharmed: numbers that are not
 * finite, lone surrogates, functions, big integers.
 */
export function canonical(value: unknown): string {
  if (value === null || typeof value === 'boolean') return String(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new TypeError(`${value} has no place in JSON`);
    return JSON.stringify(value);
  }
  if (typeof value === 'string') {
    if (!isWholeText(value)) throw new TypeError('text with half a character');
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (typeof value !== 'object') throw new TypeError(`a ${typeof value} has no place in JSON`);
  const fields = value as Readonly<Record<string, unknown>>;
  let text = '';
  // Code units, not the reader's language: the default order of text in ECMAScript.
  for (const name of Object.keys(fields).sort()) {
    if (fields[name] === undefined) continue;
    text += `${text === '' ? '' : ','}${canonical(name)}:${canonical(fields[name])}`;
  }
  return `{${text}}`;
}

/** True when every character of the text is whole: a lone half of a surrogate pair cannot be written as UTF-8. */
export const isWholeText = (text: string): boolean => !/[\ud800-\udfff]/.test(text) || !/\p{Surrogate}/u.test(text);
