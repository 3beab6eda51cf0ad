import { describe, expect, it } from 'vitest';
import { kitRun, negative, noControl } from '../../../../test/support/kit-run.js';
import { at } from '../../../../test/support/log.js';

const tom = { by: 'tom', device: 'phone-tom' };
type Log = ReturnType<typeof kitRun>;
const later = { recordedAt: at('2026-03-10', '12:00') };
const unmarked = { ...noControl, antigen: 'not-seen' as const };

describe('a test that said nothing and was made to count (Verifies: TEST-R73)', () => {
  const late = (log: Log) => ({ start: log.begin(), read: log.read('20:00', negative) });
  const ways: [string, (log: Log, by: typeof tom | { by: string }) => void][] = [
    [
      'failed, corrected to negative',
      (log, by) => {
        log.begin();
        const read = log.read('09:00', unmarked);
        log.weigh(at('2026-03-10', '11:00'), { by: 'mara' });
        log.read('09:00', negative, by, read.id);
      },
    ],
    [
      'late, its time corrected',
      (log, by) => {
        const { read } = late(log);
        log.read('09:30', negative, by, read.id);
      },
    ],
    [
      'late, the time of its start corrected',
      (log, by) => {
        const { start } = late(log);
        log.begin('11:00', {}, { ...by, ...later }, start.id);
      },
    ],
    [
      'late, another reading added',
      (log, by) => {
        late(log);
        log.read('09:30', negative, { ...by, ...later });
      },
    ],
    [
      'late, taken back and read again',
      (log, by) => {
        const { read } = late(log);
        log.one('record-withdrawn', 'animal:pip', { reason: 'wrong' }, at('2026-03-10', '12:00'), read.id, by);
        log.read('09:30', negative, { ...by, recordedAt: at('2026-03-10', '12:01') });
      },
    ],
  ];

  it.each(ways)('by another is a stop that only the medical team answers: %s', (_, change) => {
    const log = kitRun();
    change(log, tom);
    expect(log.found().runs[0]?.result).toBe('negative');
    const flag = log.found().flag('test-made-to-count');
    expect(flag).toMatchObject({ severity: 'stop', for: ['medical', 'supervisor'], by: 'tom' });
    log.answer(flag?.key ?? '', 'sol', at('2026-03-10', '18:00'));
    expect(log.found().codes).toContain('test-made-to-count');
    log.answer(flag?.key ?? '', 'mara', at('2026-03-10', '19:00'));
    expect(log.found().codes).not.toContain('test-made-to-count');
  });

  it('by who had read it, before anybody else, needs attention only; by the medical team nothing', () => {
    const log = kitRun();
    const { read } = late(log);
    log.read('09:30', negative, {}, read.id);
    expect(log.found().flag('test-made-to-count')?.severity).toBe('attention');
    const mara = kitRun();
    mara.read('09:30', negative, { by: 'mara' }, late(mara).read.id);
    expect(mara.found().codes).not.toContain('test-made-to-count');
  });

  it('is not one that is read late twice, nor one repeated with another kit', () => {
    const log = kitRun();
    late(log);
    log.read('21:00', negative, tom);
    log.begin('30:00', { run: 'run-2' as never });
    log.read('39:00', negative, tom, undefined, 'run-2');
    expect(log.found().codes).not.toContain('test-made-to-count');
  });

  it('a mark on it that is corrected away is a reading taken back', () => {
    const log = kitRun();
    log.begin();
    const read = log.read('09:00', noControl);
    log.weigh(at('2026-03-10', '11:00'), { by: 'mara' });
    log.read('09:00', negative, tom, read.id);
    expect(log.found().apart).toEqual(['reading-taken-back']);
  });
});
