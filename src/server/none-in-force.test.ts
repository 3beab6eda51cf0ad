import { describe, expect, it } from 'vitest';
import { noon, shelter, value } from '../../test/support/app.js';
import { day } from '../../test/support/log.js';
import { dueCsv } from '../exports/due-csv.js';
import { flagsIn } from '../log/flags/flags.js';
import { draft } from '../log/record.js';
import { buildWorld } from '../log/views/world.js';
import { say } from '../words/say.js';

const today = day('2026-03-02');

async function withSignature() {
  const made = await shelter();
  const { log } = made;
  const tech = draft('person-described', 'person:tom', { person: 'tom', name: 'Tom', role: 'medical' } as never, noon);
  log.add([tech], 'sol');
  await made.as('sol').append({ records: log.records });
  const signature = log.records.find((one) => one.kind === 'document-signed' && one.body.document === 'protocol');
  const withdraw = draft('record-withdrawn', signature?.subject ?? '', { reason: 'no' }, noon, signature?.id);
  return { ...made, signature, withdraw };
}

describe('a signature taken back (Verifies: LOG-R132)', () => {
  it('needs a licence, by withdrawing, correcting or retiring in its place', async () => {
    const { as, log, withdraw, signature } = await withSignature();
    const body = signature?.kind === 'document-signed' ? signature.body : ({} as never);
    const retire = draft(
      'document-retired',
      signature?.subject ?? '',
      { document: 'protocol', id: body.id, version: body.version, why: 'no' } as never,
      noon,
      signature?.id,
    );
    const byTom = [...log.add([withdraw], 'tom'), ...log.add([retire], 'tom')];
    const byVera = log.add([withdraw], 'vera');
    const outcomes = [
      ...value(await as('tom').append({ records: byTom })).outcomes,
      ...value(await as('vera').append({ records: byVera })).outcomes,
    ];
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual([
      'record-not-allowed',
      'record-not-allowed',
      'stored',
    ]);
  });
});

describe('a protocol that is in force no more (Verifies: LOG-R133)', () => {
  it('is a stop flag, and what is due says so', async () => {
    const { as, log, withdraw } = await withSignature();
    const none = (): readonly string[] =>
      flagsIn(buildWorld(log.records), today)
        .filter(({ code }) => code === 'none-in-force')
        .map((flag) => `${flag.severity} ${flag.state} ${say(flag.why)}`);
    expect(none()).toEqual([]);
    expect(value(await as('sol').due({}))).toMatchObject({ nothingBecause: null });
    await as('vera').append({ records: log.add([withdraw], 'vera') });
    expect(none()).toEqual([expect.stringMatching(/^stop open No protocol is in force any more, since what /)]);
    const due = value(await as('sol').due({}));
    expect(due).toMatchObject({ lines: [], nothingBecause: expect.stringContaining('signed by a veterinarian') });
    expect(dueCsv(due.lines, due.demo, due.nothingBecause)).toContain(due.nothingBecause ?? '?');
  });

  it('is none where nothing was ever signed', () => {
    expect(flagsIn(buildWorld([]), today)).toEqual([]);
  });
});
