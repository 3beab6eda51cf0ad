import type { Animal } from '../../core/animal/animal.js';
import { ageDays, type CalendarDate, daysBetween } from '../../core/calendar.js';
import { gainUntilDays } from '../../core/growth/gain.js';
import { said } from '../../core/said.js';
import { deskAndMedical, type Raise } from '../flag.js';
import type { LogRecord } from '../record.js';
import { type Sign, signIn } from '../views/sick.js';

/** Who is told of an animal that looks ill. */
export const toldOfIllness = deskAndMedical;

/** Two signs within so many days of each other are taken together. Our choice, no source. */
const together_days = 1;

/**
 * Signs of illness for the medical team and the supervisor: a stop under 8 weeks of age, and with a second sign within a
 * day (our choice, no source). The same sign of the same day is one flag; one that was looked for since and not seen,
 * or whose time is over, is none.
 */
export function sickFlags(animal: Animal, standing: readonly LogRecord[], today: CalendarDate, raise: Raise): void {
  if (animal.left !== null) return;
  const signs = standing.map(signIn).filter((sign) => sign !== null);
  const told = new Set<string>();
  for (const sign of signs) {
    const { code, on, record } = sign;
    if (told.has(`${code} ${on}`) || isOver(sign, standing, today)) continue;
    told.add(`${code} ${on}`);
    const days = animal.born.basis === 'unknown' ? null : ageDays(animal.born.latest, on);
    const second = signs.find((other) => other.code !== code && Math.abs(daysBetween(on, other.on)) <= together_days);
    const grave = second !== undefined || (days !== null && days < gainUntilDays);
    const left = record.kind !== 'observation-noted';
    raise(left ? 'left-ill' : 'looks-ill', grave ? 'stop' : 'attention', record, toldOfIllness, {
      sign: said(`desk.observation.${code}`),
    });
  }
}

/**
 * A person was bitten: whoever it was, and whatever becomes of the animal. It goes only with an answer of the medical team,
 * which knows what the law of the place asks for. Common practice, no source; the days differ by place.
 */
export function biteFlags(standing: readonly LogRecord[], raise: Raise): void {
  for (const record of standing) {
    if (record.kind !== 'observation-noted') continue;
    if (record.body.code === 'bite' && record.body.state === 'present') {
      raise('bit-somebody', 'stop', record, deskAndMedical);
    }
  }
}

function isOver({ code, record }: Sign, standing: readonly LogRecord[], today: CalendarDate): boolean {
  if (record.kind !== 'observation-noted') return false;
  if (record.body.until !== null && record.body.until < today) return true;
  const at = standing.indexOf(record);
  return standing
    .slice(at + 1)
    .some((later) => later.kind === 'observation-noted' && later.body.code === code && later.body.state === 'absent');
}
