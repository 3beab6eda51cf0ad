import type { Animal } from '../../core/animal/animal.js';
import { chipNumber } from '../../core/chip/read-chip.js';
import { derived, eachOf } from '../../core/derived.js';
import type { AnimalId, SectionId } from '../../core/ids.js';
import { type DueItem, whyOf } from '../../core/protocol/due.js';
import type { Flag } from '../flag.js';
import type {
  AnimalRows,
  ChipRow,
  DueRow,
  FlagRow,
  GivenRow,
  LotRow,
  PersonRow,
  RoundRow,
  SectionRow,
  TestRow,
  WeighingRow,
} from '../read-rows.js';
import type { LogRecord } from '../record.js';
import { dayOf } from '../views/animal.js';
import { effective } from '../views/effective.js';
import { ofKinds } from '../views/parts.js';
import { stateOf } from '../views/round/round.js';
import type { RoundFacts } from '../views/round-facts.js';
import type { Lot, Shelter } from '../views/shelter.js';
import { chipNumbersOf } from './chip-numbers.js';
import { type LotSum, leftOf } from './lot-sum.js';
import type { RoundSum } from './sums.js';

export function rowsOfAnimal(animal: Animal, records: readonly LogRecord[], due: readonly DueItem[]): AnimalRows {
  const last = animal.weighings.at(-1);
  const standing = effective(records);
  return {
    animals: [
      {
        animal: animal.id,
        label: animal.label,
        name: animal.name,
        litter: animal.litter?.name ?? null,
        section: animal.section,
        kennel: animal.kennel,
        sex: animal.sex,
        neutered: animal.neutered,
        born_earliest: animal.born.earliest,
        born_latest: animal.born.latest,
        arrived_on: animal.arrivedOn,
        left_on: animal.left?.on ?? null,
        left_how: animal.left?.how ?? null,
        chip: animal.chip?.code ?? null,
        weight_g: last?.grams ?? null,
        weighed_on: last?.on ?? null,
        origin_key: originKeyOf(standing),
      },
    ],
    due_items: due.map((item) => dueRow(animal, item)),
    given: givenRows(treatments(standing), animal.id),
    weighings: weighingRows(weighings(standing), animal.id),
    tests: testRows(animal.runs, animal.id),
    chips: [chipRow(animal)].filter((row) => row !== null),
    chip_numbers: chipNumbersOf(animal, chips(standing)),
  };
}

const stays = ofKinds('animal-taken-in');
const treatments = ofKinds('treatment-given');
const weighings = ofKinds('animal-weighed');
const chips = ofKinds('chip-implanted', 'chip-discarded');

const weighingRows = eachOf(
  ({ id, happenedAt, body }: LogRecord<'animal-weighed'>, animal: AnimalId): WeighingRow => ({
    record: id,
    animal,
    weighed_at: happenedAt,
    grams: body.grams,
  }),
);

const testRows = derived((runs: Animal['runs'], animal: AnimalId): readonly TestRow[] =>
  runs.map((run) => ({
    run: run.run,
    animal,
    schedule: run.schedule,
    kit_lot: run.kitLot,
    started_at: run.startedAt,
    read_at: run.readAt,
    result: run.result,
  })),
);

const givenRows = eachOf(
  (record: LogRecord<'treatment-given'>, animal: AnimalId): GivenRow => givenRow(record, animal),
);

/** The chip on an animal's record. */
export function chipRow({ id, chip, history }: Animal): ChipRow | null {
  if (chip === null) return null;
  const since = history.find((event) => event.what === 'chipped')?.at ?? '';
  return { code: chip.code, animal: id, confirmed: chip.confirmed ? 1 : 0, number: chipNumber(chip.code), since };
}

const originKeyOf = (standing: readonly LogRecord[]): string | null => stays(standing)[0]?.body.origin?.key ?? null;

export const dueRow = ({ id, section }: Animal, item: DueItem): DueRow => dueRowIn(item, id, section);

const dueRowIn = derived(
  (item: DueItem, animal: AnimalId, section: SectionId | null): DueRow => ({
    animal,
    section,
    schedule: item.schedule,
    status: item.status,
    dose: item.dose,
    earliest: item.earliest,
    due: item.due,
    overdue_after: item.overdueAfter,
    latest: item.latest,
    hold_code: item.hold?.code ?? null,
    hold_until: item.hold?.until ?? null,
    because: JSON.stringify(whyOf(item)),
    protocol: `${item.protocol.id}@${item.protocol.version}`,
  }),
);

function givenRow(record: LogRecord<'treatment-given'>, animal: AnimalId): GivenRow {
  const { schedule, product, lot, volume_ul, outcome } = record.body;
  return {
    record: record.id,
    animal,
    schedule,
    product,
    lot,
    given_on: dayOf(record),
    volume_ul,
    outcome,
    by: record.by,
    written_by: record.writtenBy ?? null,
  };
}

export const sectionRows = ({ sections }: Shelter): SectionRow[] =>
  sections.map(({ id, name, rank, position }) => ({ section: id, name, rank, position }));

export const personRows = ({ people }: Shelter): PersonRow[] =>
  people.map(({ id, role, active }) => ({ person: id, role, active: active ? 1 : 0 }));

export const lotRow = (lot: Lot, sum: LotSum): LotRow => ({
  lot: lot.id,
  holds: lot.of.is === 'product' ? lot.of.product : lot.of.is === 'kit' ? lot.of.kitType : lot.of.is,
  lot_text: lot.lotText,
  expires: lot.expires,
  pieces_left: leftOf(lot, sum),
  withdrawn: lot.withdrawn?.why ?? null,
});

export const roundRow = (facts: RoundFacts, { done, notDone, open, abnormal }: RoundSum): RoundRow => ({
  round: facts.id,
  on: facts.plan.on,
  state: stateOf(facts),
  done,
  not_done: notDone,
  open,
  abnormal,
});

export function flagRow(owner: string, flag: Flag): FlagRow {
  const { key, code, severity, animal, state } = flag;
  return { key, code, severity, animal, raised_at: flag.raisedAt, state, why: JSON.stringify(flag.why), owner };
}
