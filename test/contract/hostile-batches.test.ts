import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takeLines } from '../../src/cli/commands/record.js';
import { signersOf } from '../../src/log/private-side.js';
import type { LogRecord } from '../../src/log/record.js';
import { buildWorld } from '../../src/log/views/world.js';
import { memoryPrivateSide } from '../../src/store/private/memory.js';
import { noon, server, value } from '../support/app.js';
import { times } from '../support/chance.js';
import { type Attacker, attackers, bareLog, beyond, ground, hostileBatches, later } from '../support/hostile.js';
import { everyKind } from '../support/one-of-each.js';
import { shelterPeople } from '../support/shelter-log.js';
import { wasSignedIn } from '../support/signed-in.js';

/** What somebody who is signed in sends. */
interface Sent {
  readonly by: string;
  readonly records: readonly unknown[];
}
/** A way for records to come in from outside. */
type Way = (sent: readonly Sent[]) => Promise<readonly LogRecord[]>;
/** The veterinarian sends their own: what only they may is taken from nobody else. */
const laterOn: Sent = { by: 'vera', records: later };

async function groundStore() {
  const store = bareLog();
  await store.append(ground, noon);
  return store;
}

const ways: Readonly<Record<string, Way>> = {
  'the route': async (sent) => {
    const store = await groundStore();
    const { as, signIns } = await server({ store, people: memoryPrivateSide(shelterPeople) });
    // Everybody has signed in everywhere: what is left to hold against a record is what its people may.
    for (const device of ['phone', 'tablet', 'desk'])
      for (const person of [...Object.values(attackers), 'vera']) wasSignedIn(signIns, person, device);
    for (const { by, records } of sent) value(await as(by).append({ records: [...records] }));
    return (await store.read()) as readonly LogRecord[];
  },
  'the command line': async (sent) => {
    const store = await groundStore();
    for (const { records } of sent) {
      const lines = records.map((one, index) => ({ line: index + 1, text: '', value: one }));
      const world = buildWorld((await store.read()) as readonly LogRecord[]);
      await takeLines(lines, null, { world, signers: signersOf(shelterPeople) }, store, noon);
    }
    return (await store.read()) as readonly LogRecord[];
  },
};

describe('no role changes what it may not write', () => {
  it('with something of every kind to go for', () => {
    expect(new Set(ground.map(({ kind }) => kind))).toEqual(new Set(everyKind));
  });

  for (const [name, way] of Object.entries(ways)) {
    for (const role of Object.keys(attackers) as Attacker[]) {
      it(`${role}, by ${name}, whatever the batch (Verifies: LOG-R13, LOG-R15)`, async () => {
        const untouched = beyond(await way([laterOn]), role);
        let tookIn = 0;
        await fc.assert(
          fc.asyncProperty(hostileBatches(role), async (batch) => {
            const after = await way([{ by: attackers[role], records: batch }, laterOn]);
            tookIn += after.length - ground.length - later.length;
            expect(beyond(after, role)).toEqual(untouched);
          }),
          { numRuns: times(100, 2_000) },
        );
        // Where nothing comes in, nothing is tried.
        expect(tookIn).toBeGreaterThan(10);
      });
    }
  }
});
