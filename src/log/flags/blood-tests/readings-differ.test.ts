import { describe, expect, it } from 'vitest';
import { day } from '../../../../test/support/log.js';
import {
  drawn,
  entered,
  roundDay,
  roundId,
  roundLog,
  started,
  viewOf,
  when,
} from '../../../../test/support/round-log.js';
import { flagsIn } from '../flags.js';

const negative = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' };
const faint = { ...negative, antigen: 'faint' };
const unmarked = { ...negative, control: 'not-seen' };

/** One kit, started at 13:35, and read at each time by a person, on a phone of each. */
function readBy(...readings: readonly (readonly [string, string, object])[]) {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  entered(log);
  drawn(log, 1, '13:34');
  started(log, 1, '13:35');
  for (const [by, time, seen] of readings) {
    const body = { run: 'run-1', seen, secondReader: null, round: roundId };
    log.one('test-read', 'animal:kit-1', body as never, when(time), undefined, { by, device: `phone-${by}` });
  }
  const { world } = viewOf(log);
  const run = world.animals.get('kit-1' as never)?.runs[0];
  const flag = flagsIn(world, day(roundDay)).find(({ code }) => code === 'readings-differ');
  return { run, flag };
}

describe('two readings of one kit (Verifies: TEST-R70)', () => {
  it('the more serious one stands, whoever came later, and each stays as it was', () => {
    for (const two of [
      [
        ['ines', '13:44', faint],
        ['sol', '13:45', negative],
      ],
      [
        ['ines', '13:44', negative],
        ['sol', '13:45', faint],
      ],
    ] as const) {
      const { run } = readBy(...two);
      expect(run).toMatchObject({ result: 'reactive', seen: { antigen: 'faint' } });
      expect(run?.readings?.map(({ result }) => result).sort()).toEqual(['negative', 'reactive']);
    }
    expect(readBy(['ines', '13:44', unmarked], ['sol', '13:45', negative]).run?.result).toBe('invalid');
  });

  it('are flagged as a stop that names both, with who and when, to supervisor and medical team', () => {
    const { flag } = readBy(['ines', '13:44', faint], ['sol', '13:45', negative]);
    expect(flag).toMatchObject({ severity: 'stop', for: ['supervisor', 'medical'] });
    const said = JSON.stringify(flag?.why);
    for (const part of ['round.result.reactive-faint', when('13:44'), 'round.result.negative', when('13:45')]) {
      expect(said).toContain(part);
    }
    expect(said).toMatch(/"person":"ines".*"person":"sol"/);
  });

  it('are not where they say the same, or one of them looked at nothing', () => {
    expect(readBy(['ines', '13:44', negative], ['sol', '13:45', negative]).flag).toBeUndefined();
    const late = readBy(['ines', '13:44', negative], ['sol', '14:20', {}]);
    expect(late.flag).toBeUndefined();
    expect(late.run?.result).toBe('negative');
  });
});
