import { counts, type FollowUp } from '../../animal/follow-up.js';
import { addSpan, type CalendarDate, dayFromNumber } from '../../calendar.js';
import { type Said, said } from '../../said.js';
import type { Schedule } from '../document/document.js';
import type { Confirm, DueItem } from '../due.js';
import type { Subject } from '../input.js';

/** A reading of one schedule, as far as it matters to the next. */
export interface TestSeen {
  readonly on: CalendarDate;
  readonly at: string;
  /** It met a test that the protocol asked for. */
  readonly valid: boolean;
  readonly result: 'negative' | 'reactive' | null;
}

/** Waits for the medical team. */
export const isUnsettled = (confirm: Confirm | null | undefined): boolean =>
  confirm != null && confirm.state !== 'confirmed' && confirm.state !== 'not-confirmed';

/**
 * Where the last reactive test of a schedule stands on a day; null when there is none, or when a later test that the
 * protocol asked for was negative (as at 6 months after a kitten's antibody). The last word since counts: a result of
 * another method settles it, whatever is planned after it, a plan holds until its day is over, and an unclear result leaves
 * it open, as results do that differ.
 */
export function confirmOf(
  tests: readonly TestSeen[],
  followUps: readonly FollowUp[],
  today: CalendarDate,
): Confirm | null {
  const past = tests.filter(({ on, result }) => result !== null && on <= today);
  const place = past.findLastIndex(({ result }) => result === 'reactive');
  const reactive = past[place];
  if (reactive === undefined) return null;
  if (past.slice(place + 1).some(({ result, valid }) => valid && result === 'negative')) return null;
  const followUp = lastWord(followUps.filter((one) => one.at >= reactive.at && counts(one)));
  return { on: reactive.on, state: stateOf(followUp, today), followUp };
}

/** The word that counts: a plan takes the place of another plan and of an unclear result, never of a result. */
function lastWord(words: readonly FollowUp[]): FollowUp | null {
  const last = words.at(-1) ?? null;
  if (last?.says.is !== 'plan') return last;
  const result = words.findLast(({ says, doubt }) => says.is === 'result' || doubt === 'differs');
  const isClear = result !== undefined && (result.says.is === 'plan' || result.says.outcome !== 'unclear');
  return isClear ? result : last;
}

function stateOf(followUp: FollowUp | null, today: CalendarDate): Confirm['state'] {
  if (followUp === null || followUp.doubt !== undefined) return 'open';
  const { says } = followUp;
  if (says.is === 'plan') return today > says.on ? 'passed' : 'planned';
  return says.outcome === 'unclear' ? 'open' : says.outcome;
}

/** The same for a schedule of an animal. */
export function confirmIn(subject: Subject, schedule: Schedule): Confirm | null {
  const tests = subject.progressOf(schedule).judged.map(
    ({ done, status }): TestSeen => ({
      on: dayFromNumber(done.on),
      at: done.at,
      valid: status === 'valid',
      result: done.result,
    }),
  );
  if (!tests.some(({ result }) => result === 'reactive')) return null;
  const { followUps = [] } = subject.input.animal;
  const own = followUps.filter((one) => one.schedule === schedule.id);
  return confirmOf(tests, own, dayFromNumber(subject.today));
}

/**
 * The item of a test with a reactive one behind it. It is never complete: it stays with the medical team, on the day
 * of their plan, else on the day the protocol gives, else from the day it was read. A test that is due by the protocol
 * stays due and says so too.
 */
export function withConfirm(subject: Subject, schedule: Schedule, item: DueItem): DueItem {
  if (schedule.action !== 'test') return item;
  const confirm = confirmIn(subject, schedule);
  if (confirm === null) return item;
  if (item.status === 'due' || item.status === 'overdue') return { ...item, confirm };
  const because = confirmSaid(schedule, confirm);
  if (!isUnsettled(confirm)) {
    return item.due === null ? { ...item, because, confirm } : { ...item, confirm };
  }
  const planned = confirm.followUp?.says.is === 'plan' ? confirm.followUp.says.on : null;
  if (planned === null && item.due !== null) {
    return {
      ...item,
      status: 'to-confirm',
      because: said('due.reactive.next', { reason: because, next: item.because }),
      confirm,
    };
  }
  const { after } = schedule.confirm ?? { after: null };
  const from = planned ?? (after === null ? confirm.on : addSpan(confirm.on, after));
  return {
    ...item,
    status: 'to-confirm',
    earliest: from,
    due: from,
    overdueAfter: planned,
    latest: null,
    because,
    confirm,
  };
}

/** One reactive test is not a diagnosis: what the protocol says about confirming it, from when, and what came since. */
export function confirmSaid({ name, confirm: rule }: Schedule, { on, state, followUp }: Confirm): Said {
  const values = { schedule: name, on: { date: on } };
  const says = followUp?.says;
  if (followUp?.doubt === 'differs') return said('due.reactive.differs', values);
  if (says?.is === 'result') {
    const found = {
      ...values,
      method: says.method,
      date: { date: says.on },
      person: { person: followUp?.person ?? '' },
    };
    return said(`due.reactive.${says.outcome}`, found);
  }
  const reason = said('due.reactive', values);
  if (says?.is === 'plan') {
    const plan = { reason, what: says.what, date: { date: says.on }, person: { person: followUp?.person ?? '' } };
    return said(state === 'passed' ? 'due.reactive.plan-passed' : 'due.reactive.planned', plan);
  }
  if (rule === null) return reason;
  const { words, after } = rule;
  return after === null
    ? said('due.reactive.confirm', { reason, words })
    : said('due.reactive.confirm-from', { reason, words, date: { date: addSpan(on, after) } });
}
