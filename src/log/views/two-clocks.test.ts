import { describe, expect, it } from 'vitest';
import { drawn, entered, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { moved } from '../../core/clocked.js';
import type { DeviceId } from '../../core/ids.js';
import type { LogRecord } from '../record.js';
import { isOfTeam, testsRunning } from './blood-tests/running-tests.js';

const fast_ms = 43 * 60_000;

/** The same records as a device writes them whose clock is so far ahead and which knows it. */
const timedBy = (device: string, ahead_ms: number, records: readonly LogRecord[]): LogRecord[] =>
  records.map((record) => ({
    ...record,
    device: device as DeviceId,
    happenedAt: moved(record.happenedAt, ahead_ms),
    recordedAt: moved(record.recordedAt, ahead_ms),
    clock: { ahead_ms, measuredAt: moved(when('13:00'), ahead_ms) },
  }));

/** Blood and start at 14:00 in truth, on a phone 43 minutes fast; read at `time` on the partner's phone. */
function readElsewhere(time: string) {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  entered(log);
  const before = log.records.length;
  drawn(log, 1, '13:55');
  const kit = { kitType: 'felv-antigen-a', lot: null, kitLot: 'K27', conjugateLot: 'K27', outOfColdAt: null };
  const of = { run: 'run-1', schedule: 'felv-test', round: roundId };
  log.one('test-started', 'animal:kit-1', { ...of, ...kit } as never, when('14:00'));
  const own = log.records.splice(before);
  log.records.push(...timedBy('phone-a', fast_ms, own));
  const seen = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' };
  const body = { run: 'run-1', seen, secondReader: null, round: roundId };
  const read = log.one('test-read', 'animal:kit-1', body as never, when(time));
  log.records.pop();
  log.records.push(...timedBy('phone-b', 0, [read]));
  return log;
}

const resultOf = (log: ReturnType<typeof roundLog>) => viewOf(log).world.animals.get('kit-1' as never)?.runs[0]?.result;

describe('a test started on a phone 43 minutes fast and read on the partner’s (Verifies: TEST-R12)', () => {
  it('counts when it was read inside its window, though its reading seems to come before its start', () => {
    expect(resultOf(readElsewhere('14:09'))).toBe('negative');
  });

  it('does not count when it was read too late or too early in truth', () => {
    expect(resultOf(readElsewhere('14:52'))).toBe('not-valid');
    expect(resultOf(readElsewhere('14:03'))).toBe('not-valid');
  });

  it('stays what it was when what was seen is put right later, on any device', () => {
    const log = readElsewhere('14:09');
    const read = log.records.at(-1);
    const seen = { control: 'seen', antigen: 'faint', invalid: 'not-seen' };
    log.one('test-read', 'animal:kit-1', { ...(read?.body as object), seen } as never, when('14:09'), read?.id, {
      device: 'phone-a',
      recordedAt: when('15:30'),
    });
    expect(resultOf(log)).toBe('reactive');
  });

  it('runs for treater and holder, and for nobody else (Verifies: TEST-R14)', () => {
    const log = readElsewhere('14:09');
    log.records.pop();
    const { world } = viewOf(log);
    const seenBy = (person: string) => testsRunning(world, isOfTeam([person as never])).map(({ run }) => run.run);
    expect([seenBy('ines'), seenBy('sol'), seenBy('mara')]).toEqual([['run-1'], ['run-1'], []]);
  });
});
