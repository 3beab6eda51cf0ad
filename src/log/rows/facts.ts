import type { Animal } from '../../core/animal/animal.js';
import { chipNumber } from '../../core/chip/read-chip.js';
import { derived, listOf, partBy } from '../../core/derived.js';
import { deadSpaceOf } from '../../core/dosing/instrument.js';
import { type AnimalId, type LotId, RoundId, type SyringeId } from '../../core/ids.js';
import type { BodyOf } from '../kinds/index.js';
import type {
  ChipReadingRow,
  FastClockRow,
  LotUseRow,
  NumberHolderRow,
  RoundAnimalRow,
  RunHolderRow,
} from '../read-rows.js';
import type { LogRecord } from '../record.js';
import { runHolders } from '../views/blood-tests/run-holders.js';
import { ownerlessReads } from '../views/chips/chip-owner.js';
import { inDeviceOrder } from '../views/device-order.js';
import { effective } from '../views/effective.js';
import { fastClocks } from '../views/fast-clocks.js';
import type { Ground } from '../views/ground.js';
import { ofKinds } from '../views/parts.js';
import { animalStop, countsOf } from '../views/round/round.js';
import type { Shelter } from '../views/shelter.js';
import { numberHolders } from '../views/twins.js';

/**
 * What one animal's records say that concerns more than this animal, as rows that it owns: added up over all animals
 * (sums.ts) they give what is left of a lot, how far a round has come, who else carries a chip. Depends on nothing but the
 * animal, its records, the ground and the rounds that plan it.
 */
export interface Facts {
  readonly lot_uses: readonly LotUseRow[];
  readonly round_animals: readonly RoundAnimalRow[];
  readonly chip_readings: readonly ChipReadingRow[];
  readonly fast_clocks: readonly FastClockRow[];
  readonly run_holders: readonly RunHolderRow[];
  readonly number_holders: readonly NumberHolderRow[];
}

/** Tables of what concerns more than the animal whose rows they are. */
export type FactTable = keyof Facts;

/** A round as it concerns the animals that it plans. */
export interface PlannedRound {
  readonly round: RoundId;
  readonly plan: BodyOf<'round-planned'>;
}

const plannedRound = derived((plan: BodyOf<'round-planned'>, round: RoundId): PlannedRound => ({ round, plan }));

/** The rounds that plan an animal, by animal; a list is the same while the same rounds plan it in the same way. */
export const roundsPlanning = derived((rounds: Shelter['rounds']): ReadonlyMap<AnimalId, readonly PlannedRound[]> => {
  const planning = new Map<AnimalId, PlannedRound[]>();
  for (const { id, plan } of rounds.values()) {
    for (const animal of new Set(plan.lines.map((line) => line.animal))) {
      const known = planning.get(animal);
      if (known === undefined) planning.set(animal, [plannedRound(plan, id)]);
      else known.push(plannedRound(plan, id));
    }
  }
  return new Map([...planning].map(([animal, list]) => [animal, listOf(list)]));
});

export const noRounds: readonly PlannedRound[] = [];

/** `animal` is null for one that was never taken in: its records count for the lots and rounds that they name, too. */
export function factsOf(
  id: AnimalId,
  animal: Animal | null,
  records: readonly LogRecord[],
  ground: Ground,
  rounds: readonly PlannedRound[],
): Facts {
  const standing = effective(records);
  return {
    lot_uses: lotUses(using(standing), animal?.runs ?? noRuns, ground, id),
    round_animals: roundAnimals(id, animal, records, treatments(standing), ground, rounds),
    chip_readings: animal === null ? [] : chipReadings(animal, implants(standing), scans(records)),
    fast_clocks: fastClocks(id, fast(records)),
    run_holders: runHolders(id, animal, records, standing),
    number_holders: animal === null ? [] : numberHolders(animal, standing),
  };
}

const using = ofKinds('treatment-given', 'sample-drawn', 'chip-implanted', 'chip-discarded');
const treatments = ofKinds('treatment-given');
const implants = ofKinds('chip-implanted');
const scans = ofKinds('chip-scanned');
const fast = partBy<LogRecord, LogRecord>((record): record is LogRecord => record.said?.by === 'clock');
const noRuns: Animal['runs'] = [];

/** What was used up of which lot, by the record that says so: doses, tests, chips, syringes. */
const lotUses = derived(
  (standing: readonly LogRecord[], runs: Animal['runs'], ground: Ground, id: AnimalId): readonly LotUseRow[] => {
    const uses = new Map<string, LotUseRow>();
    const add = (lot: LotId | null, record: string, at: string, more: Partial<LotUseRow> = {}): void => {
      if (lot === null) return;
      const key = JSON.stringify([record, lot]);
      const was = uses.get(key);
      const none = { volume_ul: 0, test_read: 0, test_invalid: 0, invalid_at: null } as const;
      uses.set(key, { ...none, ...was, ...more, record, lot, animal: id, at, pieces: (was?.pieces ?? 0) + 1 });
    };
    for (const run of runs) {
      if (run.startedAt === null) continue;
      const failed = run.result === 'invalid';
      add(run.lot, run.startRecord ?? run.run, run.startedAt, {
        test_read: run.readAt === null ? 0 : 1,
        test_invalid: failed ? 1 : 0,
        invalid_at: failed ? run.readAt : null,
      });
    }
    const lost_ul = lostIn(ground);
    for (const { id: record, happenedAt: at, kind, body } of standing) {
      if (kind === 'treatment-given') {
        add(body.lot, record, at, { volume_ul: body.volume_ul === null ? 0 : body.volume_ul + lost_ul(body.syringe) });
        add(body.syringeLot, record, at);
      } else if (kind === 'sample-drawn') {
        // A try that gave no blood has used its syringe up, too.
        add(body.syringeLot, record, at);
      } else if (kind === 'chip-implanted' || (kind === 'chip-discarded' && body.implant === null)) {
        // One that was discarded after it had been implanted has left its box with the implant.
        add(body.lot, record, at);
      }
    }
    return [...uses.values()];
  },
);

/** What stays in a syringe and its needle has left the vial too, whole microlitres. */
function lostIn({ formulary }: Ground): (id: SyringeId | null) => number {
  return (id) => {
    const syringe = id === null ? undefined : formulary?.syringes.find((one) => one.id === id);
    return syringe === undefined ? 0 : deadSpaceOf(syringe, formulary?.instrument ?? null);
  };
}

function roundAnimals(
  id: AnimalId,
  animal: Animal | null,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
  rounds: readonly PlannedRound[],
): RoundAnimalRow[] {
  const rows = new Map<RoundId, RoundAnimalRow>();
  const put = (round: RoundId, more: Partial<RoundAnimalRow>): void => {
    const none = { done: 0, not_done: 0, open: 0, abnormal: 0, no_lot: 0, no_amount: 0, missing_at: null };
    rows.set(round, { ...none, ...rows.get(round), ...more, round, animal: id });
  };
  if (animal !== null && rounds.length > 0) {
    const ordered = inDeviceOrder(records);
    for (const { round, plan } of rounds) {
      if (!isMet(plan, animal, ground)) continue;
      const stops = plan.lines
        .filter((line) => line.animal === id)
        .map(({ schedules }) => animalStop({ shelter: ground }, animal, round, schedules, ordered));
      const { done, notDone, open, abnormal } = countsOf(stops);
      put(round, { done, not_done: notDone, open, abnormal });
    }
  }
  for (const { kind, body, happenedAt } of standing) {
    if (kind !== 'treatment-given' || body.round === null || !body.here) continue;
    const no_lot = body.lot === null && body.lotText === '' ? 1 : 0;
    const no_amount = body.volume_ul === null && body.pieces === '' ? 1 : 0;
    if (no_lot + no_amount === 0) continue;
    const round = RoundId.parse(body.round);
    const was = rows.get(round);
    put(round, {
      no_lot: (was?.no_lot ?? 0) + no_lot,
      no_amount: (was?.no_amount ?? 0) + no_amount,
      missing_at: was?.missing_at ?? happenedAt,
    });
  }
  return [...rows.values()];
}

/** Whether a round comes by an animal: it is met where it is now, else in the last of the sections of the round. */
function isMet({ sections }: BodyOf<'round-planned'>, animal: Animal, ground: Ground): boolean {
  const home = sections.find((section) => section === animal.section) ?? sections.at(-1);
  return ground.sections.some(({ id }) => id === home);
}

/** Chips put in here, and numbers read here that are not this animal's own. */
/**
 * Numbers read in the animal, or that a reader was tried on beside it, also by scans that were corrected or withdrawn since: whether somebody else carries one of
 * them changes what of the animal is told.
 */
function chipReadings(
  animal: Animal,
  implants: readonly LogRecord<'chip-implanted'>[],
  scans: readonly LogRecord<'chip-scanned'>[],
): ChipReadingRow[] {
  const row = (record: string, code: string, was: ChipReadingRow['was']): ChipReadingRow => ({
    record,
    animal: animal.id,
    code,
    number: chipNumber(code),
    was,
  });
  const own = implants.map((one) => row(one.id, one.body.code, 'implanted'));
  const reads = ownerlessReads(animal).map(({ record, code }) => row(record, code, 'read'));
  const told = new Set(reads.map(({ record }) => record));
  const others = scans.flatMap((one) => {
    const code = one.body.target !== 'pack' ? one.body.found?.code : undefined;
    return code === undefined || told.has(one.id) ? [] : [row(one.id, code, 'read')];
  });
  return [...own, ...reads, ...others];
}
