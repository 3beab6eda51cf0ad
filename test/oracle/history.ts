import type { Animal } from '../../src/core/animal/animal.js';
import type { SectionRank } from '../../src/core/biosecurity/section.js';
import type { ProtocolDocument, Schedule } from '../../src/core/protocol/document/document.js';
import type { Catalogue } from '../../src/core/protocol/input.js';
import { numberOf } from './days.js';

/** What the simulator is told: the document as it is written, the animal as the record shows it, and the day. */
export interface Told {
  readonly document: ProtocolDocument;
  readonly animal: Pick<
    Animal,
    | 'id'
    | 'born'
    | 'arrivedOn'
    | 'sex'
    | 'neutered'
    | 'left'
    | 'history'
    | 'observations'
    | 'holds'
    | 'chip'
    | 'weighings'
    | 'runs'
    | 'scans'
  >;
  readonly catalogue: Catalogue;
  readonly rank: SectionRank | null;
  readonly today: number;
}

/** One thing done, as it looks to one schedule. */
export interface Deed {
  readonly record: string;
  readonly day: number;
  readonly at: string;
  readonly fault: string | null;
  readonly keepsDistance: boolean;
  readonly result: 'negative' | 'reactive' | null;
}

export function classesOfProduct(told: Told, product: string): readonly string[] | null {
  return told.catalogue.products.find((one) => one.id === product)?.classes ?? null;
}

/** Read the history for one schedule, in order of happening. */
export function deedsFor(told: Told, schedule: Schedule): Deed[] {
  const deeds: Deed[] = [];
  const add = (
    one: { record: string; on: string; at: string },
    fault: string | null,
    distance = true,
    result: Deed['result'] = null,
  ) => deeds.push({ record: one.record, day: numberOf(one.on), at: one.at, fault, keepsDistance: distance, result });
  for (const event of told.animal.history) {
    if (event.what === 'weighed' && schedule.action === 'weigh') add(event, null);
    if (event.what === 'chipped' && schedule.action === 'chip') add(event, event.confirmed ? null : 'not-confirmed');
    if (event.what === 'tested' && schedule.action === 'test' && event.schedule === schedule.id) {
      if (event.result === 'negative' || event.result === 'reactive') add(event, null, true, event.result);
      else if (event.result === 'running') add(event, 'running', false);
      else if (event.result === 'invalid') add(event, 'test-invalid');
      else if (event.result === 'not-valid')
        add(event, event.fault === undefined ? 'test-outside-window' : `test-${event.fault}`);
      else add(event, 'test-abandoned');
    }
    if (event.what === 'given' && schedule.action === 'give') {
      const meant = event.schedule === schedule.id;
      const classes = classesOfProduct(told, event.product);
      const noted = schedule.recordedOnly.find((one) => classes?.includes(one.class));
      if (classes === null) {
        if (meant) add(event, 'product-unknown');
      } else if (schedule.satisfiedBy.some((one) => classes.includes(one))) {
        add(event, event.substandard, event.substandard !== 'not-taken');
      } else if (noted !== undefined) add(event, 'product-does-not-satisfy', noted.spaces);
      else if (meant) add(event, 'product-of-other-class', false);
    }
  }
  if (schedule.action === 'look') {
    for (const seen of told.animal.observations) {
      if (schedule.satisfiedBy.includes(seen.code)) add({ ...seen, at: seen.on }, null);
    }
    if (schedule.satisfiedBy.includes('chip-read')) {
      const chips = told.animal.history.filter((event) => event.what === 'chipped' && event.implanted === true);
      const chip = chips[chips.length - 1];
      let first = true;
      for (const scan of told.animal.scans ?? []) {
        if (chip?.what !== 'chipped' || scan.target !== 'animal' || scan.code !== chip.code || scan.on <= chip.on)
          continue;
        if (first || ['recheck', 'exit'].includes(scan.occasion)) add(scan, null);
        first = false;
      }
    }
  }
  const key = (one: Deed): string => `${String(one.day).padStart(8, '0')} ${one.at} ${one.record}`;
  return deeds.sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
}

export interface Sight {
  readonly state: 'present' | 'absent' | 'unknown';
  readonly since: number | null;
  readonly until: number | null;
}

/** What is known on a day: the last thing noted up to that day and up to today, unless it has run out. */
export function sight(told: Told, code: string, day: number, lasts: ((since: number) => number) | null = null): Sight {
  let found: Sight = { state: 'unknown', since: null, until: null };
  for (const one of told.animal.observations) {
    const since = numberOf(one.on);
    if (one.code !== code || since > day || since > told.today) continue;
    if (found.since !== null && since < found.since) continue;
    const until = one.until !== null ? numberOf(one.until) : lasts === null ? null : lasts(since);
    found = { state: until !== null && until < day ? 'unknown' : one.state, since, until };
  }
  return found;
}
