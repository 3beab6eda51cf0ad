import { IntlMessageFormat } from 'intl-messageformat';
import { Temporal } from 'temporal-polyfill';
import { derived } from '../core/derived.js';
import { licenceNotHere, type Names, noNames, notKnownHere } from '../core/people.js';
import { writeMass, writeVolume, writeWeight } from '../core/quantity/write.js';
import { type Given, type Key, made, type Said, type SayValue, type SayValues } from '../core/said.js';
import { onTheWall } from '../core/wall-time.js';
import { english } from './english.js';
import type { Language } from './language.js';
import { argumentsIn, plainParts } from './message.js';
import { shown } from './shown.js';

/** Puts into words a sentence that was made, or one of the catalogue with the values that its text names. */
export type Say = <W extends Said | Key>(what: W, ...values: Given<Extract<W, Key>>) => string;

/** For whom sentences are written: the language, the zone in which instants are told, and whom they know by name. */
export interface Listener {
  readonly language: Language;
  /** IANA name of the zone. */
  readonly zone: string;
  readonly names?: Names;
}

/**
 * A `say` for one listener. The server makes one per request; the phone and the command line have one listener and
 * use the plain `say` below.
 *
 * A key without a message comes back as the key, and a value nobody passed shows its name in angle brackets: at the
 * cage a sentence with a visible hole is better than no screen. Both are failing tests (test/architecture).
 */
export function sayFor(listener: Listener): Say {
  const speak = (what: Said | Key, values?: SayValues): string =>
    inFull(typeof what === 'string' ? made(what, values) : what);

  function inFull({ say: key, with: given = {} }: Said): string {
    // Never remembered as missing: it may be learned later.
    if (!Object.hasOwn(listener.language.messages, key)) {
      listener.language.missing?.(key);
      return key;
    }
    const message = messageOf(listener.language, key);
    if (message.format === null) return filled(message.plain ?? [], given);
    const shown: Record<string, string | number> = {};
    for (const [name, value] of Object.entries(given)) Object.assign(shown, written(name, value));
    for (const name of message.names) shown[name] ??= `⟨${name}⟩`;
    return String(message.format.format(shown));
  }

  /** Text and values in turn; the commonest messages by far, and many times faster than the formatter. */
  function filled(parts: readonly string[], given: SayValues): string {
    let text = '';
    for (let index = 0; index < parts.length; index++) {
      const part = parts[index] ?? '';
      if (index % 2 === 0) {
        text += part;
        continue;
      }
      const value = given[part];
      if (value !== undefined) text += inWords(value);
      else text += halfOf(part, given) ?? `⟨${part}⟩`;
    }
    return text;
  }

  /** The day or the time of an instant that was passed under the name without `_day` or `_time`. */
  function halfOf(name: string, given: SayValues): string | null {
    const half = /^(.+)_(day|time)$/.exec(name);
    const value = half === null ? undefined : given[half[1] ?? ''];
    if (half === null || typeof value !== 'object' || !('instant' in value)) return null;
    const { day, time } = told(value.instant);
    return half[2] === 'day' ? day : time;
  }

  /** A value by its name; an instant also gives `<name>_day` and `<name>_time`, so that a message can take either. */
  function written(name: string, value: SayValue): Record<string, string | number> {
    if (typeof value !== 'object' || !('instant' in value)) return { [name]: inWords(value) };
    const { day, time } = told(value.instant);
    return { [name]: inWords(value), [`${name}_day`]: day, [`${name}_time`]: time };
  }

  function inWords(value: SayValue): string | number {
    if (typeof value === 'string') return shown(value);
    if (typeof value !== 'object') return value;
    if ('say' in value) return inFull(value);
    if ('date' in value) return listener.language.day(Temporal.PlainDate.from(value.date));
    if ('grams' in value) return writeWeight(value.grams);
    if ('microlitres' in value) return writeVolume(value.microlitres);
    if ('micrograms' in value) return writeMass(value.micrograms);
    if ('ageDays' in value) return listener.language.age(value.ageDays);
    if ('person' in value) return listener.names?.get(value.person)?.name ?? speak(notKnownHere);
    if ('licenceOf' in value) return listener.names?.get(value.licenceOf)?.licence || speak(licenceNotHere);
    if ('list' in value) return listener.language.list(value.list.map((item) => String(inWords(item))));
    const { day, time } = told(value.instant);
    return `${day}, ${time}`;
  }

  function told(instant: string): { day: string; time: string } {
    const local = onTheWall(instant, listener.zone);
    return { day: listener.language.day(local), time: listener.language.time(local) };
  }
  return speak as Say;
}

let listener: Listener = { language: english, zone: 'UTC', names: noNames };
let current: Say = sayFor(listener);

/** Put a sentence into words for the one listener of this program (`setZone`, `setNames`). */
export const say = ((what: Said, ...values: []) => current(what, ...values)) as Say;

/** Choose the zone in which instants are told, usually the shelter's. */
export function setZone(zone: string): void {
  listener = { ...listener, zone };
  current = sayFor(listener);
}

/** Choose whom this program knows by name. */
export function setNames(names: Names): void {
  listener = { ...listener, names };
  current = sayFor(listener);
}

/** The name of a person, or plain words for one whose name is not known here (any more). */
export const personName = (id: string): string => listener.names?.get(id)?.name ?? say(notKnownHere);

/** Whom this program knows by name. */
export const namesHere = (): Names => listener.names ?? noNames;

interface Parsed {
  /** Text and names of values in turn, text first, of a message that does nothing but take values in; else null. */
  readonly plain: readonly string[] | null;
  readonly format: IntlMessageFormat | null;
  readonly names: readonly string[];
}

// Parsing a message costs far more than formatting it, and a screen says the same few again and again.
const messageOf = derived((language: Language, key: string): Parsed => {
  const message = language.messages[key] ?? '';
  const plain = typeof message === 'string' ? plainParts(message) : null;
  if (plain !== null) return { plain, format: null, names: [] };
  const format = new IntlMessageFormat(message, language.tag, undefined, { ignoreTag: true, formatters });
  return { plain, format, names: [...argumentsIn(format.getAst()).keys()] };
}, 10_000);

const formatters = {
  // Six places, as src/core/quantity writes them: the platform's own three would turn 0.0625 into 0.063.
  getNumberFormat: (tag?: string | string[], style?: Intl.NumberFormatOptions) =>
    new Intl.NumberFormat(tag, { maximumFractionDigits: 6, ...style }),
  getDateTimeFormat: (...style: ConstructorParameters<typeof Intl.DateTimeFormat>) => new Intl.DateTimeFormat(...style),
  getPluralRules: (...rules: ConstructorParameters<typeof Intl.PluralRules>) => new Intl.PluralRules(...rules),
};
