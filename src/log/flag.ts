import type { Animal } from '../core/animal/animal.js';
import type { CalendarDate } from '../core/calendar.js';
import type { AnimalId, PersonId, RecordId } from '../core/ids.js';
import type { Role } from '../core/people.js';
import { type After, made, type OtherValues, type Said, type SayValues } from '../core/said.js';
import type { LogRecord } from './record.js';
import type { Ground } from './views/ground.js';
import type { FlagAnswer, Shelter } from './views/shelter.js';

/** Whom a flag is for. */
export const desk: readonly Role[] = ['supervisor'];
export const deskAndMedical: readonly Role[] = ['supervisor', 'medical'];

/** What a flag is about: everything that has a short name for lists. */
export type FlagCode = After<'flag-name.'>;
/** Those whose message is the code's own; an alarm of the weight curve brings its sentence along. */
export type ToldCode = FlagCode & After<'flag.'>;

/**
 * Something for a person to look at. A flag refuses nothing: the fact stands, and stays flagged until somebody has
 * answered. Flags are worked out from the records; only taking and answering them is recorded.
 */
export interface Flag {
  /** Same for the same cause on every device: code and the record or thing it is about. */
  readonly key: string;
  readonly code: FlagCode;
  readonly severity: 'stop' | 'attention';
  readonly animal: AnimalId | null;
  readonly about: RecordId | null;
  readonly raisedAt: string;
  /** Who must see it. */
  readonly for: readonly Role[];
  readonly why: Said;
  readonly state: 'open' | 'taken' | 'answered';
  readonly answer: FlagAnswer | null;
  /** Person who made the record, if it is about one. */
  readonly by: PersonId | null;
  /** Person who wrote it down, if that was somebody else. */
  readonly writtenBy?: PersonId;
  /**
   * Set when words alone do not close the flag: the follow-up that does, what it says, and whether it still holds. Null
   * while there is none.
   */
  readonly followUp?: {
    readonly said: Said;
    readonly by: PersonId;
    readonly at: string;
    readonly closes: boolean;
    /** Whether the animal still has to be kept apart: a plan closes the flag until its day, and settles nothing. */
    readonly holds: boolean;
  } | null;
  /** Only an answer by this role closes it; the answer of another takes it on. */
  readonly closedBy?: Role;
}

/** A flag before anybody has looked at it. */
export type Raised = Omit<Flag, 'state' | 'answer'>;

/**
 * The values of a flag's message besides the animal's name, none where there are none; and what tells causes of one code
 * on one record apart.
 */
export type Own<C extends ToldCode> = keyof OwnValues<C> extends never
  ? [values?: Record<string, never>, which?: string]
  : [values: OwnValues<C>, which?: string];
export type OwnValues<C extends ToldCode> = OtherValues<`flag.${C}`, 'animal'>;

/** Why a flag about an animal was raised, and by what key it is known. */
export function aboutAnimal<C extends ToldCode>(code: C, animal: string, record: RecordId, own: Own<C>) {
  const [values = {}, which = ''] = own as readonly unknown[] as readonly [SayValues?, string?];
  const key = which === '' ? `${code}:${record}` : `${code}:${record}:${which}`;
  return { key, code, why: made(`flag.${code}`, { animal, ...values }) };
}

/** Raises a flag about a record of one animal. */
export type Raise = <C extends ToldCode>(
  code: C,
  severity: Raised['severity'],
  record: LogRecord,
  roles: readonly Role[],
  ...own: Own<C>
) => void;

/** What the lamp showed, what was missed of an order, and a bite, goes only with an answer of the medical team. */
const settledByMedical: readonly FlagCode[] = ['lamp-glow', 'lamp-unsure', 'order-missed', 'bit-somebody'];

/** Raises flags about records of one animal, into a list. */
export const raising =
  (animal: Pick<Animal, 'id' | 'name'>, flags: Raised[]): Raise =>
  (code, severity, record, roles, ...own) => {
    flags.push({
      ...aboutAnimal(code, animal.name, record.id, own),
      severity,
      animal: animal.id,
      about: record.id,
      raisedAt: record.happenedAt,
      for: roles,
      by: record.by,
      ...writerOf(record),
      ...(settledByMedical.includes(code) ? { closedBy: 'medical' } : {}),
    });
  };

/** The flags that some work raises about records of one animal. */
export function raisedBy(animal: Pick<Animal, 'id' | 'name'>, work: (raise: Raise) => void): readonly Raised[] {
  const flags: Raised[] = [];
  work(raising(animal, flags));
  return flags;
}

/** What besides its records the flags of an animal depend on. */
export interface Around {
  readonly ground: Ground;
  readonly answers: Shelter['answers'];
  readonly today: CalendarDate;
  /** Whether another animal has a chip of this number (`chipNumber`) on record. */
  readonly isOnAnother: (number: string) => boolean;
}

export function withAnswer(flag: Raised, answer: FlagAnswer | undefined): Flag {
  if (flag.closedBy === 'medical' && flag.followUp == null) {
    const state = answer?.settled ? 'answered' : answer?.taken || answer?.answered ? 'taken' : 'open';
    const shown = answer?.settled ? { ...answer, answered: answer.settled } : (answer ?? null);
    return { ...flag, state, answer: shown };
  }
  if (flag.followUp !== undefined) {
    const state = flag.followUp?.closes ? 'answered' : answer?.taken || answer?.answered ? 'taken' : 'open';
    return { ...flag, state, answer: answer ?? null };
  }
  const state = answer?.answered ? 'answered' : answer?.taken ? 'taken' : 'open';
  return { ...flag, state, answer: answer ?? null };
}

/** Who wrote the record down that a flag is about, if that was somebody else than who did it. */
export const writerOf = ({ writtenBy }: LogRecord) => (writtenBy === undefined ? {} : { writtenBy });
