import type { CalendarDate } from '../../../core/calendar.js';

export interface Signature {
  readonly signer: string;
  readonly licence: string;
  readonly on: CalendarDate;
  readonly statement: string;
}

/** One version of a protocol or formulary and where it stands. */
export interface Filed<D> {
  readonly document: D;
  readonly filedAt: string;
  readonly state: 'draft' | 'signed' | 'retired';
  readonly signature: Signature | null;
}

export interface Versioned {
  readonly id: string;
  readonly version: string;
}

export const keyOf = (id: string, version: string): string => `${id}@${version}`;

export const sameVersion = (one: Versioned | undefined, other: Versioned): boolean =>
  one?.id === other.id && one.version === other.version;

export function file<D extends Versioned>(into: Map<string, Filed<D>>, document: D, at: string): void {
  const key = keyOf(document.id, document.version);
  // A version is what it was when first filed; the same version filed again changes nothing.
  if (!into.has(key)) into.set(key, { document, filedAt: at, state: 'draft', signature: null });
}

export function sign<D extends Versioned>(
  into: Map<string, Filed<D>>,
  id: string,
  version: string,
  signature: Signature,
): void {
  const filed = into.get(keyOf(id, version));
  if (filed === undefined) return;
  for (const [key, other] of into) if (other.state === 'signed') into.set(key, { ...other, state: 'retired' });
  into.delete(keyOf(id, version));
  into.set(keyOf(id, version), { ...filed, state: 'signed', signature });
}

export function retire<D extends Versioned>(into: Map<string, Filed<D>>, id: string, version: string): void {
  const filed = into.get(keyOf(id, version));
  if (filed !== undefined) into.set(keyOf(id, version), { ...filed, state: 'retired' });
}

export function inForce<D>(filed: ReadonlyMap<string, Filed<D>>): D | null {
  for (const one of filed.values()) if (one.state === 'signed') return one.document;
  return null;
}
