import { draft, type LogRecord } from '../../src/log/record.js';
import { at, day } from './log.js';
import { oneOf } from './one-of-each.js';
import { shelterLog, weighed, wormed } from './shelter-log.js';

/** A log in which much has happened: moves, corrections, a wrong lot, chips of two animals at once, a round, a test, a fast clock. */
export function busyLog() {
  const log = shelterLog(4);
  const morning = at('2026-03-02', '09:30');
  const [wrong] = log.add([weighed(1, 620, morning)]) as [LogRecord];
  log.add([weighed(2, 500, morning), weighed(3, 480, morning), wormed(1, morning), wormed(2, morning)]);
  log.add([wormed(1, at('2026-03-02', '10:30'))], 'sol', 'phone-b');
  log.add([{ ...weighed(1, 260, morning), corrects: wrong.id }], 'sol');
  log.add([draft('animal-moved', 'animal:kit-3', { section: 'quarantine' as never, kennel: 'Q1' }, morning)], 'sol');
  for (const kit of [1, 4]) {
    const found = { raw: '036012345678901', code: '036012345678901', class: 'iso' };
    log.add([draft('chip-scanned', `animal:kit-${kit}`, { target: 'animal', occasion: 'intake', found }, morning)]);
  }
  log.add([weighed(9, 700, morning)]);
  const stray = { raw: '036012345678902', code: '036012345678902', class: 'iso' };
  log.add([draft('chip-scanned', 'animal:kit-2', { target: 'animal', occasion: 'before', found: stray }, morning)]);
  log.add([oneOf('round-planned'), oneOf('sample-drawn'), oneOf('test-started')]);
  const [early] = log.add([weighed(3, 490, at('2026-03-02', '10:00'))], 'sol', 'phone-c') as [LogRecord];
  const clock = { ahead_ms: 240_000, measuredAt: at('2026-03-02', '09:59') };
  log.records.splice(-1, 1, { ...early, clock });
  log.add([draft('animal-left', 'animal:kit-2', { how: 'adopted', on: day('2026-03-02') }, morning)], 'sol');
  return log;
}
