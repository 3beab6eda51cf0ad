import fc from 'fast-check';
import { expect, it } from 'vitest';
import { evaluate } from '../../src/core/protocol/engine/evaluate.js';
import { forecast } from '../../src/core/protocol/engine/forecast.js';
import { seed, times } from '../support/chance.js';
import { day } from '../support/protocol.js';
import { type Answer, askAll, judgeAll } from './ask.js';
import { numberOf } from './days.js';
import type { Told } from './history.js';
import { animals, catalogues, documents, ranks, todays } from './random.js';

/**
 * Verifies: PROT-R1, PROT-R2, PROT-R3, PROT-R4, PROT-R5, PROT-R6, PROT-R7, PROT-R8, PROT-R9, PROT-R10, PROT-R11
 * Verifies: PROT-R12, PROT-R13, PROT-R14, PROT-R15, PROT-R16, PROT-R17, PROT-R18, PROT-R19, PROT-R20, PROT-R21
 * Verifies: PROT-R23, PROT-R24, PROT-R25, PROT-R26, PROT-R27, PROT-R33, PROT-R34
 *
 * The engine and the day-by-day simulator give the same answer for random protocols and histories. ORACLE_RUNS=n makes
 * the run longer or shorter.
 */
const runs = Number(process.env.ORACLE_RUNS ?? times(10_000, 200_000));

it(`agrees with a separate simulator on every date of ${runs} random protocols and histories, seed ${seed}`, () => {
  process.stdout.write(`oracle: ${runs} runs, seed ${seed}\n`);
  const seenStatuses = new Map<string, number>();
  const seenReasons = new Map<string, number>();
  const count = (map: Map<string, number>, key: string): void => void map.set(key, (map.get(key) ?? 0) + 1);
  fc.assert(
    fc.property(documents, animals, catalogues, ranks, todays, (document, animal, formulary, rank, today) => {
      const told = { document, animal, catalogue: formulary, rank, today: numberOf(today) } as Told;
      const input = { animal, formulary, rank };
      const engine = forecast(input, document, day(today)).map(
        (item): Answer => ({
          schedule: item.schedule,
          status: item.status,
          dose: item.dose,
          earliest: item.earliest,
          due: item.due,
          overdueAfter: item.overdueAfter,
          latest: item.latest,
          hold: item.hold?.code ?? null,
          holdUntil: item.hold?.until ?? null,
          times: (item.times ?? []).map((one) => `${one.on} ${one.at} ${one.state}`).join(', '),
        }),
      );
      expect(engine).toEqual(askAll(told));
      const judged = evaluate(input, document, day(today));
      expect(
        judged.map((one) => [one.schedule, one.record, one.status, one.reason, one.dose, one.validFrom].join(' ')),
      ).toEqual(judgeAll(told));
      for (const item of engine) count(seenStatuses, item.hold ?? item.status);
      for (const one of judged) count(seenReasons, one.reason);
    }),
    { numRuns: runs, seed },
  );
  process.stdout.write(`oracle: ${JSON.stringify(Object.fromEntries(seenStatuses))}\n`);
  process.stdout.write(`oracle: ${JSON.stringify(Object.fromEntries(seenReasons))}\n`);
  // A run that never meets a kind of answer would agree about nothing.
  const met = [...seenStatuses.keys()];
  for (const kind of [
    'due',
    'overdue',
    'not-yet',
    'to-confirm',
    'complete',
    'aged-out',
    'not-recommended',
    'needs-first',
    'hold-a',
    'age-unknown',
  ]) {
    expect(met).toContain(kind);
  }
});
