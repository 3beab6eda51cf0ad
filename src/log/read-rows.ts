/**
 * The read tables: plain rows for reports and outside tools, each worked out from the records. None is truth; all can
 * be thrown away and rebuilt to the same bytes. Days are ISO text, instants UTC text, chips and lots text.
 */
export interface ReadRows {
  readonly animals: AnimalRow;
  readonly due_items: DueRow;
  readonly given: GivenRow;
  readonly weighings: WeighingRow;
  readonly tests: TestRow;
  readonly chips: ChipRow;
  readonly chip_numbers: ChipNumberRow;
  readonly lot_uses: LotUseRow;
  readonly round_animals: RoundAnimalRow;
  readonly chip_readings: ChipReadingRow;
  readonly fast_clocks: FastClockRow;
  readonly run_holders: RunHolderRow;
  readonly number_holders: NumberHolderRow;
  readonly flags: FlagRow;
  readonly sections: SectionRow;
  readonly people: PersonRow;
  readonly lots: LotRow;
  readonly rounds: RoundRow;
}
export type ReadTable = keyof ReadRows;

export interface AnimalRow {
  readonly animal: string;
  readonly label: string;
  readonly name: string;
  readonly litter: string | null;
  readonly section: string | null;
  readonly kennel: string;
  readonly sex: string;
  readonly neutered: string;
  readonly born_earliest: string;
  readonly born_latest: string;
  readonly arrived_on: string;
  readonly left_on: string | null;
  readonly left_how: string | null;
  readonly chip: string | null;
  readonly weight_g: number | null;
  readonly weighed_on: string | null;
  /** Its key in the file it was brought in from; null when it came in otherwise. */
  readonly origin_key: string | null;
}

export interface DueRow {
  readonly animal: string;
  readonly section: string | null;
  readonly schedule: string;
  readonly status: string;
  readonly dose: number;
  readonly earliest: string | null;
  readonly due: string | null;
  readonly overdue_after: string | null;
  readonly latest: string | null;
  readonly hold_code: string | null;
  readonly hold_until: string | null;
  /** The reason as JSON of a `Said`. */
  readonly because: string;
  readonly protocol: string;
}

export interface GivenRow {
  readonly record: string;
  readonly animal: string;
  readonly schedule: string | null;
  readonly product: string;
  readonly lot: string | null;
  readonly given_on: string;
  readonly volume_ul: number | null;
  readonly outcome: string;
  readonly by: string;
  /** Who wrote it down, where that was somebody else. */
  readonly written_by: string | null;
}

export interface WeighingRow {
  readonly record: string;
  readonly animal: string;
  readonly weighed_at: string;
  readonly grams: number;
}

export interface TestRow {
  readonly run: string;
  readonly animal: string;
  readonly schedule: string;
  readonly kit_lot: string | null;
  readonly started_at: string | null;
  readonly read_at: string | null;
  readonly result: string;
}

export interface ChipRow {
  readonly code: string;
  readonly animal: string;
  readonly confirmed: 0 | 1;
  /** The form in which two numbers of one chip are the same text. */
  readonly number: string;
  /** When it came on the animal's record. */
  readonly since: string;
}

/**
 * How a number stands with an animal: `carried`, it is the chip on its record; `discarded`, it was put in or dropped and
 * thrown away; `read`, it was put in once or read in it, on any occasion and whatever was said of it since.
 */
export type ChipStanding = 'carried' | 'discarded' | 'read';

/** One number that was ever recorded on an animal. Text, whatever kind of chip it is. */
export interface ChipNumberRow {
  readonly code: string;
  readonly animal: string;
  readonly standing: ChipStanding;
  readonly label: string;
  readonly left_on: string | null;
}

/** What one record took from one lot. Pieces are doses, tests, chips or syringes; whole microlitres. */
export interface LotUseRow {
  readonly record: string;
  readonly lot: string;
  readonly animal: string;
  readonly at: string;
  readonly pieces: number;
  readonly volume_ul: number;
  readonly test_read: 0 | 1;
  readonly test_invalid: 0 | 1;
  readonly invalid_at: string | null;
}

/** How far a round has come with one animal, in lines of its plan, and what was left out in writing down its doses. */
export interface RoundAnimalRow {
  readonly round: string;
  readonly animal: string;
  readonly done: number;
  readonly not_done: number;
  readonly open: number;
  readonly abnormal: number;
  readonly no_lot: number;
  readonly no_amount: number;
  /** The first dose without a lot or an amount. */
  readonly missing_at: string | null;
}

/** A chip put in here, or a number read in an animal that its own record does not account for. */
export interface ChipReadingRow {
  readonly record: string;
  readonly animal: string;
  readonly code: string;
  readonly number: string;
  readonly was: 'implanted' | 'read';
}

/** The first record of a device and day, among those of one animal, that its measured clock has put right. */
export interface FastClockRow {
  readonly device: string;
  readonly on: string;
  readonly animal: string;
  readonly record: string;
  readonly at: string;
  readonly ahead_ms: number;
  readonly by: string;
}

/** A name under which a test of an animal was drawn, started or read, with the record that said so first. */
export interface RunHolderRow {
  readonly run: string;
  readonly animal: string;
  /** The animal's name or number, or its id. */
  readonly called: string;
  readonly record: string;
  readonly at: string;
  readonly by: string;
  /** 0 when all of it was taken back. */
  readonly stands: 0 | 1;
}

/** The shelter's number of an animal in care, in the form in which two numbers are the same text. */
export interface NumberHolderRow {
  readonly number: string;
  readonly animal: string;
  readonly label: string;
  readonly called: string;
  /** When it was given the number. */
  readonly since: string;
}

export interface FlagRow {
  readonly key: string;
  readonly code: string;
  readonly severity: string;
  readonly animal: string | null;
  readonly raised_at: string;
  readonly state: string;
  readonly why: string;
  /** What it was worked out from: `animal:ID`, `lot:ID`, `round:ID` ... ; written anew with that and with nothing else. */
  readonly owner: string;
}

export interface SectionRow {
  readonly section: string;
  readonly name: string;
  readonly rank: string;
  readonly position: number;
}

/** Names are on the private side, behind a door of their own. */
export interface PersonRow {
  readonly person: string;
  readonly role: string;
  readonly active: 0 | 1;
}

export interface LotRow {
  readonly lot: string;
  readonly holds: string;
  readonly lot_text: string;
  readonly expires: string | null;
  readonly pieces_left: number;
  readonly withdrawn: string | null;
}

export interface RoundRow {
  readonly round: string;
  readonly on: string;
  readonly state: string;
  readonly done: number;
  readonly not_done: number;
  readonly open: number;
  readonly abnormal: number;
}

/** The tables that belong to one animal, replaced as a whole when a record about it comes in. */
export type AnimalTable = 'animals' | 'due_items' | 'given' | 'weighings' | 'tests' | 'chips' | 'chip_numbers';
export type AnimalRows = { readonly [T in AnimalTable]: readonly ReadRows[T][] };
