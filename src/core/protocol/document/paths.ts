/**
 * Ways into a document: field names, and inside a list the `id` of an entry or its place from 0. By id a way stays good
 * when entries are added before it.
 */
export type Found = { readonly found: true; readonly value: unknown } | { readonly found: false };

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const isFields = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The value a way leads to, if there is one. */
export function readAt(document: unknown, at: readonly string[]): Found {
  let value: unknown = document;
  for (const key of at) {
    if (isList(value)) {
      const place = placeIn(value, key);
      if (place < 0) return { found: false };
      value = value[place];
    } else if (isFields(value) && Object.hasOwn(value, key)) {
      value = value[key];
    } else {
      return { found: false };
    }
  }
  return { found: true, value };
}

/** A copy with another value where the way leads; the document itself when the way leads nowhere. */
export function writeAt(document: unknown, at: readonly string[], value: unknown): unknown {
  const [key, ...rest] = at;
  if (key === undefined) return value;
  if (isList(document)) {
    const place = placeIn(document, key);
    return place < 0 ? document : document.map((item, index) => (index === place ? writeAt(item, rest, value) : item));
  }
  if (!isFields(document) || !Object.hasOwn(document, key)) return document;
  return { ...document, [key]: writeAt(document[key], rest, value) };
}

function placeIn(list: readonly unknown[], key: string): number {
  const byId = list.findIndex((item) => isFields(item) && item.id === key);
  if (byId >= 0 || !/^\d+$/.test(key)) return byId;
  return Number(key) < list.length ? Number(key) : byId;
}

/** Same data, whatever the order of fields; what a schema adds by default counts as said when one side leaves it out. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (isList(a) && isList(b)) return a.length === b.length && a.every((item, index) => sameValue(item, b[index]));
  if (isFields(a) && isFields(b)) {
    return [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) =>
      Object.hasOwn(a, key) && Object.hasOwn(b, key) ? sameValue(a[key], b[key]) : isDefault(a[key] ?? b[key]),
    );
  }
  return a === b;
}

const isDefault = (value: unknown): boolean =>
  value === undefined ||
  value === null ||
  value === '' ||
  (isList(value) && value.length === 0) ||
  (isFields(value) && Object.keys(value).length === 0);
