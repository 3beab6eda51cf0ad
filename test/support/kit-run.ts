import type { RecordId } from '../../src/core/ids.js';
import type { Flag } from '../../src/log/flag.js';
import { flagsIn } from '../../src/log/flags/flags.js';
import { apartFlags } from '../../src/log/flags/open-things.js';
import type { BodyInput } from '../../src/log/kinds/index.js';
import type { LogRecord } from '../../src/log/record.js';
import { buildWorld, dueIn } from '../../src/log/views/world.js';
import { animalId, at, day } from './log.js';
import { ward } from './ward.js';

export type Seen = BodyInput<'test-read'>['seen'];
type By = { by?: string; device?: string; recordedAt?: string };

export const reactive: Seen = { control: 'seen', antigen: 'seen', invalid: 'not-seen' };
export const negative: Seen = { ...reactive, antigen: 'not-seen' };
export const noControl: Seen = { ...reactive, control: 'not-seen' };

/** Pip in the kittens' room and one kit of its test, read between 8 and 10 minutes; `09:30` is minutes and seconds after 10. */
export function kitRun() {
  const log = ward();
  const person = (id: string, role: BodyInput<'person-described'>['role'], when = '2026-01-02'): LogRecord =>
    log.one('person-described', `person:${id}`, { person: id as never, role }, at(when));
  person('sol', 'supervisor');
  log.take('pip', '2026-01-20');
  const pip = 'animal:pip';
  const hour = (text: string): string => `2026-03-10T10:${text}.000Z`;
  return {
    ...log,
    person,
    hour,
    begin: (
      text = '00:00',
      more: Partial<BodyInput<'test-started'>> = {},
      by: By = {},
      corrects?: RecordId,
    ): LogRecord => {
      const body = {
        run: 'run-1' as never,
        schedule: 'felv-test' as never,
        kitType: 'felv-antigen-a' as never,
        lot: 'kit-a' as never,
        kitLot: 'KIT-A',
        conjugateLot: 'KIT-A',
        outOfColdAt: null,
        ...more,
      };
      return log.one('test-started', pip, body, hour(text), corrects, by);
    },
    read: (text: string, seen: Seen, by: By = {}, corrects?: RecordId, run = 'run-1'): LogRecord =>
      log.one('test-read', pip, { run: run as never, seen }, hour(text), corrects, by),
    follow: (
      says: BodyInput<'test-followed-up'>['says'],
      when: string,
      person = 'mara',
      by: By = { by: 'sol' },
      corrects?: RecordId,
    ): LogRecord =>
      log.one(
        'test-followed-up',
        pip,
        { schedule: 'felv-test' as never, says, person: person as never },
        when,
        corrects,
        by,
      ),
    weigh: (when: string, by: By = {}): LogRecord =>
      log.one('animal-weighed', pip, { grams: 900, entered: '900', doubtful: false }, when, undefined, by),
    toKittens: (when: string): LogRecord =>
      log.one('animal-moved', pip, { section: 'kittens-one' as never, kennel: '2' }, when, undefined, { by: 'tom' }),
    answer: (key: string, by: string, when: string): LogRecord =>
      log.one('flag-answered', `flag:${key}`, { flag: key, answer: 'done', note: 'Seen.' }, when, undefined, { by }),
    found: (today = '2026-03-11', records: readonly LogRecord[] = log.records) => found(records, today),
  };
}

export function found(records: readonly LogRecord[], today: string) {
  const world = buildWorld(records);
  const pip = world.animals.get(animalId('pip'));
  const flags = flagsIn(world, day(today));
  const due = pip && dueIn(world, pip, day(today)).find(({ schedule }) => schedule === 'felv-test');
  return {
    flags,
    codes: flags.filter(({ state }) => state !== 'answered').map(({ code }) => code),
    flag: (code: string): Flag | undefined => flags.find((one) => one.code === code),
    apart: pip === undefined ? [] : apartFlags(world, pip, day(today)).map(({ code }) => code),
    due,
    runs: pip?.runs ?? [],
    pip,
  };
}
