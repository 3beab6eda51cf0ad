import type { BirthInterval, Neutered, Sex } from '../animal/animal.js';
import type { CalendarDate } from '../calendar.js';
import type { LitterId, SectionId } from '../ids.js';
import type { WeightUnit } from '../quantity/units.js';
import type { Said } from '../said.js';
import type { DayOrder } from './cells/day.js';
import type { DecimalSign } from './cells/decimal-sign.js';
import type { LeftHow } from './leaving/leaving.js';
import type { KnownSection, PlaceAnswer } from './leaving/place.js';

/** What a person answered for the ages of a file: the day on which they were true, or that they are not to be used. */
export type AgeDay = CalendarDate | 'arrival' | 'leaving' | 'not-used';

/** What a row is read with: the shelter as it is, and the answers of the person for this file. */
export interface ImportContext {
  /** SHA-256 of the file, hex. */
  readonly file: string;
  readonly today: CalendarDate;
  /** Sections that are open. */
  readonly sections: readonly KnownSection[];
  readonly dateOrder: DayOrder | null;
  readonly decimal: DecimalSign | null;
  /** Unit of weights that have none of their own. */
  readonly weightUnit: WeightUnit | null;
  /** Answers about places of the file that are no section, by the place in plain form; '' is a blank place. */
  readonly places: Readonly<Record<string, PlaceAnswer>>;
  /** On which day the ages of the file were true, where no column tells it; null until a person has said. */
  readonly ageDay: AgeDay | null;
  /** Columns (by position) of which a person said that they tell nothing about dying and leaving. */
  readonly tellsNothing: readonly number[];
  /** True to bring in animals that have left already as well. */
  readonly alsoLeft: boolean;
}

/** The body of an animal taken in, as a record keeps it. */
export interface TakenIn {
  readonly label: string;
  readonly name: string;
  readonly litter: { readonly id: LitterId; readonly name: string } | null;
  readonly sex: Sex;
  readonly neutered: Neutered;
  readonly born: BirthInterval;
  readonly arrivedOn: CalendarDate;
  readonly section: SectionId | null;
  readonly kennel: string;
  readonly marks: { readonly collar: string; readonly coat: string; readonly mark: string; readonly photo: null };
  readonly notes: string;
  readonly origin: { readonly file: string; readonly row: number; readonly key: string };
}

export interface FileWeight {
  readonly grams: number;
  readonly entered: string;
  /** The day of weighing, or null when the file does not tell: then no dose may rest on it. */
  readonly on: CalendarDate | null;
}

export interface FileChip {
  readonly raw: string;
  readonly code: string;
  readonly class: string;
}

export type Verdict = 'accepted' | 'doubtful' | 'refused';

/** One row of the file as we read it. */
export interface ReadRow {
  readonly row: number;
  readonly line: number;
  readonly verdict: Verdict;
  /** Why it is doubtful or refused; empty when accepted. */
  readonly reasons: readonly Said[];
  /** What was concluded on the way, for a person who wants to know. */
  readonly notes: readonly Said[];
  /** The number and name in the file, for lists; also for refused rows. */
  readonly label: string;
  readonly name: string;
  /** What tells this row from all others of its file, and finds it again at the next import. */
  readonly key: string;
  readonly arrivedOn: CalendarDate | null;
  readonly leftOn: CalendarDate | null;
  /** A place that a person has to answer for (its plain form is the key of the answer), or null. */
  readonly askPlace: string | null;
  /** Columns not used whose cells may say that the animal has died or left. */
  readonly clues: readonly number[];
  /** Null when refused. */
  readonly animal: TakenIn | null;
  readonly weight: FileWeight | null;
  readonly chip: FileChip | null;
  /** Only with `alsoLeft`. */
  readonly left: { readonly on: CalendarDate; readonly how: LeftHow; readonly note: string } | null;
}
