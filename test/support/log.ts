import type { CalendarDate } from '../../src/core/calendar.js';
import { AnimalId, DeviceId, PersonId, type RecordId, ShelterId } from '../../src/core/ids.js';
import type { BodyInput, Kind } from '../../src/log/kinds/index.js';
import { type Draft, draft, type LogRecord, stamp } from '../../src/log/record.js';

/** A small log in trade words, for tests: every call returns the record it adds. Ids and times are counted, not real. */
export function testLog(options: { zone?: string; shelter?: string } = {}) {
  const zone = options.zone ?? 'UTC';
  const records: LogRecord[] = [];
  let count = 0;
  const add = (drafts: readonly Draft[], by = 'ines', device = 'phone-a', recordedAt?: string): LogRecord[] => {
    const stamped = stamp(drafts, {
      shelter: ShelterId.parse(options.shelter ?? 'test-shelter'),
      zone,
      by: PersonId.parse(by),
      device: DeviceId.parse(device),
      nextSeq: records.length + 1,
      now: recordedAt ?? drafts[0]?.happenedAt ?? at('2026-03-01'),
      newId: () => `rec-${String(++count).padStart(5, '0')}`,
    });
    records.push(...stamped);
    return stamped;
  };
  const one = <K extends Kind>(
    kind: K,
    subject: string,
    body: BodyInput<K>,
    happenedAt: string,
    corrects?: RecordId,
    more: { by?: string; device?: string; recordedAt?: string } = {},
  ): LogRecord<K> => {
    const [record] = add([draft(kind, subject, body, happenedAt, corrects)], more.by, more.device, more.recordedAt);
    if (record === undefined) throw new Error('nothing was recorded');
    return record as LogRecord<K>;
  };
  return { records, add, one };
}

/** An instant at a UTC time of a day, 09:00 unless told otherwise. */
export const at = (date: string, time = '09:00'): string => `${date}T${time}:00.000Z`;

export const day = (text: string): CalendarDate => text as CalendarDate;
export const animalId = (name: string): AnimalId => AnimalId.parse(name);

/** A kitten as taken in, born on a known day. */
export function kitten(
  name: string,
  born: string,
  more: Partial<BodyInput<'animal-taken-in'>> = {},
): BodyInput<'animal-taken-in'> {
  return {
    label: '',
    name,
    litter: null,
    sex: 'unknown',
    neutered: 'no',
    born: { earliest: day(born), latest: day(born), basis: 'known' },
    arrivedOn: day(born),
    section: null,
    kennel: '',
    marks: { collar: 'teal', coat: 'tabby', mark: 'white left hind foot', photo: null },
    ...more,
  };
}
