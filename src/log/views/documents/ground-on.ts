import type { CalendarDate } from '../../../core/calendar.js';
import { derived } from '../../../core/derived.js';
import type { PersonId } from '../../../core/ids.js';
import type { Role } from '../../../core/people.js';
import type { LogRecord } from '../../record.js';
import type { Ground } from '../ground.js';
import type { Filed } from './filed.js';

/**
 * The ground with the documents that were in force on a day: of those signed by then the one signed last. Null where none
 * was signed yet.
 */
export const groundOn = derived((ground: Ground, day: CalendarDate): Ground => {
  const protocol = signedBy(ground.protocols, day);
  const formulary = signedBy(ground.formularies, day);
  return protocol === ground.protocol && formulary === ground.formulary ? ground : { ...ground, protocol, formulary };
}, 400);

/** Filed versions stand in the order of their signatures. */
const signedBy = <D>(filed: readonly Filed<D>[], day: CalendarDate): D | null =>
  filed.findLast(({ signature }) => signature !== null && signature.on <= day)?.document ?? null;

/** The word of the medical team as it was when it was written down, and written down by it. */
export const isMedical = (
  ground: Pick<Ground, 'people'>,
  { by, writtenBy, recordedAt }: Pick<LogRecord, 'by' | 'writtenBy' | 'recordedAt'>,
): boolean => [by, writtenBy ?? by].every((person) => roleAt(ground, person, recordedAt) === 'medical');

/**
 * The role that a person had then: one given later changes nothing about what was done before. Null for who was not known
 * or did not work here then.
 */
export const roleAt = ({ people }: Pick<Ground, 'people'>, person: PersonId, at: string): Role | null =>
  roleOf(people.find(({ id }) => id === person)?.roles.findLast((one) => one.at <= at));

const roleOf = (had: Ground['people'][number]['roles'][number] | undefined): Role | null =>
  had?.active === true ? had.role : null;
