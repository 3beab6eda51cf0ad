import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { shelterLog, shelterPeople, starterProtocol } from '../../../test/support/shelter-log.js';
import { admission } from '../admit.js';
import { signersOf } from '../private-side.js';
import type { LogRecord } from '../record.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

const { id, version } = starterProtocol;
const subject = `document:${id}`;

/** Vera signs; Tess is of the medical team without a licence, and Max too. */
function shelter() {
  const log = shelterLog(1);
  for (const person of ['tess', 'max']) {
    log.one('person-described', `person:${person}`, { person: person as never, role: 'medical' }, at('2026-03-01'));
  }
  const retire = (by: string, more: object = {}) => {
    const body = { document: 'protocol' as const, id, version, why: 'A wrong dose.', ...more };
    return log.one('document-retired', subject, body, at('2026-03-02', '09:00'), undefined, { by });
  };
  const admit = async (record: LogRecord): Promise<string> => {
    const others = log.records.filter((one) => one !== record);
    const { shelter } = buildWorld(others);
    const find = async (ids: readonly string[]) => others.filter((one) => ids.includes(one.id));
    const answer = (await admission(shelter, signersOf(shelterPeople), [record], find))(record);
    return answer.ok ? 'in' : answer.why.say;
  };
  const flags = () =>
    flagsIn(buildWorld(log.records), day('2026-03-03')).filter(({ code }) => code === 'retired-unlicensed');
  return { log, retire, admit, flags };
}

describe('a signed document that is taken out of force without a licence (Verifies: LOG-R180)', () => {
  it('is out of force at once, and a stop that names who did it', async () => {
    const { log, retire, admit, flags } = shelter();
    const record = retire('tess');
    expect(await admit(record)).toBe('in');
    expect(buildWorld(log.records).shelter.protocol).toBeNull();
    expect(flags()).toMatchObject([
      { severity: 'stop', about: record.id, for: ['medical', 'supervisor'], by: 'tess', closedBy: 'medical' },
    ]);
  });

  it('is closed by another of the medical team, not by who did it', () => {
    const { log, retire, flags } = shelter();
    const flag = `retired-unlicensed:${retire('tess').id}`;
    const word = { flag, answer: 'explained', note: 'It was wrong.' } as const;
    log.one('flag-answered', `flag:${flag}`, word, at('2026-03-02', '10:00'), undefined, { by: 'tess' });
    expect(flags()).toMatchObject([{ state: 'taken' }]);
    log.one('flag-answered', `flag:${flag}`, word, at('2026-03-02', '11:00'), undefined, { by: 'max' });
    expect(flags()).toMatchObject([{ state: 'answered' }]);
  });

  it('is none under one’s own licence; another’s is turned away', async () => {
    const { retire, admit, flags } = shelter();
    const own = retire('vera', { licence: 'Invented 1' });
    expect(await admit(own)).toBe('in');
    expect(flags()).toEqual([]);
    expect(await admit(retire('tess', { licence: 'Invented 1' }))).toBe('log.retires-under-other');
  });

  it('comes back into force only by a licence', async () => {
    const { log, retire, admit } = shelter();
    const { id: retired } = retire('tess');
    const back = (by: string) =>
      log.one('record-withdrawn', subject, { reason: 'A slip.' }, at('2026-03-02', '10:00'), retired, { by });
    expect(await admit(back('tess'))).toBe('server.problem.record-not-allowed');
    expect(await admit(back('vera'))).toBe('in');
  });
});
