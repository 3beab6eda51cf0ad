import type { HoldRule, Schedule, Target } from '../../src/core/protocol/document/document.js';
import { firstDay, later, numberOf, textOf } from './days.js';
import { sight, type Told } from './history.js';
import { Simulator, type Walked } from './simulator.js';

/** What the simulator answers for one schedule; days as text, so that they can be compared with the engine's. */
export interface Answer {
  readonly schedule: string;
  readonly status: string;
  readonly dose: number;
  readonly earliest: string | null;
  readonly due: string | null;
  readonly overdueAfter: string | null;
  readonly latest: string | null;
  readonly hold: string | null;
  readonly holdUntil: string | null;
  readonly times: string;
}

interface Dates {
  readonly earliest: number;
  readonly due: number;
  readonly overdueAfter: number | null;
  readonly latest: number | null;
}

/** Ask every schedule that is in use what comes next. */
export function askAll(told: Told): Answer[] {
  const used = told.document.schedules.filter((one) => one.active);
  const { born, left } = told.animal;
  if (left !== null && numberOf(left.on) <= told.today) return [];
  const now = new Simulator(told);
  const answers = used.map((schedule) => ask(now, schedule));
  const seen = (list: readonly Answer[]): Answer[] =>
    list.map((answer, at) => notComplete(now, used[at] as Schedule, answer));
  if (born.basis !== 'unknown') return seen(answers);
  const as = (end: 'earliest' | 'latest'): Answer[] => {
    const one = new Simulator({
      ...told,
      animal: { ...told.animal, born: { ...born, earliest: born[end], latest: born[end] } },
    });
    return used.map((schedule) => ask(one, schedule));
  };
  const [old, young] = [as('earliest'), as('latest')];
  return seen(answers.map((answer, at) => ofUnknownAge(told, answer, old[at] ?? answer, young[at] ?? answer)));
}

/** A reactive test that no later one the protocol asked for has found negative is not complete, whatever else is so. */
function notComplete(sim: Simulator, schedule: Schedule, answer: Answer): Answer {
  if (schedule.action !== 'test' || answer.status === 'due' || answer.status === 'overdue') return answer;
  const { deeds, judged } = sim.walk(schedule);
  let reactive: number | null = null;
  deeds.forEach((deed, at) => {
    if (deed.day > sim.told.today) return;
    if (deed.result === 'reactive') reactive = deed.day;
    else if (deed.result === 'negative' && judged[at]?.status === 'valid') reactive = null;
  });
  if (reactive === null) return answer;
  if (answer.due !== null) return { ...answer, status: 'to-confirm' };
  const from = schedule.confirm?.after ?? null;
  const day = textOf(from === null ? reactive : later(reactive, from));
  return { ...answer, status: 'to-confirm', earliest: day, due: day, overdueAfter: null, latest: null };
}

/** When nobody knows the age and it decides: the earlier answer, held or asked about. */
function ofUnknownAge(told: Told, answer: Answer, old: Answer, young: Answer): Answer {
  if (old.status === young.status && old.due === young.due && old.dose === young.dose) return answer;
  const withDates = [old, young].filter((one) => one.due !== null);
  const [first, second] = withDates;
  if (first === undefined) return answer;
  const earlier = second !== undefined && (second.due ?? '') < (first.due ?? '') ? second : first;
  const schedule = told.document.schedules.find((one) => one.id === answer.schedule);
  if (schedule?.action === 'weigh' || told.document.ageUnknown === 'ask' || earlier.hold !== null) return earlier;
  return { ...earlier, status: 'on-hold', hold: 'age-unknown', holdUntil: null };
}

function ask(sim: Simulator, schedule: Schedule): Answer {
  const { told } = sim;
  const { today } = told;
  const walked = sim.walk(schedule);
  const nothing = {
    schedule: schedule.id,
    earliest: null,
    due: null,
    overdueAfter: null,
    latest: null,
    hold: null,
    holdUntil: null,
    times: '',
  };
  const here = schedule.where === null || (told.rank !== null && schedule.where.ranks.includes(told.rank));
  if (!here || walked.series === null) return { ...nothing, status: 'not-recommended', dose: 1 };
  if (schedule.action === 'chip' && told.animal.chip?.confirmed === true)
    return { ...nothing, status: 'complete', dose: 1 };

  const { place: first, lapsed, lastResult } = walked;
  const ahead = { place: first, doses: [...walked.doses], lapsed, lastResult };
  for (;;) {
    const target = walked.series.targets[ahead.place];
    const dose = ahead.doses.length + 1;
    if (target === undefined) return { ...nothing, status: 'complete', dose };
    if (walked.last === null && ahead.doses.length === 0 && !sim.isCalled(target, walked)) {
      return { ...nothing, status: 'not-recommended', dose };
    }
    const dates = datesOf(sim, schedule, target, { doses: ahead.doses, last: walked.last });
    const before = ahead.place;
    sim.settle(schedule, walked.series, ahead, Math.max(today, dates.due));
    // By then it may be another target, or the first again.
    if (ahead.place !== before || ahead.doses.length + 1 !== dose) continue;
    const here = { ...walked, lapsed: ahead.lapsed };
    return answerFor(sim, schedule, { target, dates, dose, walked: here, doses: ahead.doses }, nothing);
  }
}

interface Open {
  readonly target: Target;
  readonly dates: Dates;
  readonly dose: number;
  readonly walked: Walked;
  readonly doses: readonly number[];
}

function answerFor(sim: Simulator, schedule: Schedule, open: Open, nothing: Omit<Answer, 'status' | 'dose'>): Answer {
  const { target, dates, dose, walked, doses } = open;
  const { today } = sim.told;
  if (!sim.isCalled(target, walked)) {
    return {
      ...nothing,
      status: doses.length > 0 ? 'complete' : 'not-recommended',
      dose,
      earliest: textOf(dates.earliest),
    };
  }
  if (dates.latest !== null && Math.max(today, dates.earliest) > dates.latest) {
    return { ...nothing, status: 'aged-out', dose };
  }
  const day = Math.max(today, dates.due);
  const shown = {
    ...nothing,
    dose,
    earliest: textOf(dates.earliest),
    due: textOf(dates.due),
    overdueAfter: dates.overdueAfter === null ? null : textOf(dates.overdueAfter),
    latest: dates.latest === null ? null : textOf(dates.latest),
    // What was given that day was given, also where the series is to begin again.
    times: timesOf(target, walked.doses, day),
  };
  if (target.upkeep && today < dates.due) return { ...shown, status: 'complete' };
  const hold = holdOn(sim, schedule, day);
  if (hold !== null) {
    return { ...shown, status: 'on-hold', hold: hold.code, holdUntil: hold.until === null ? null : textOf(hold.until) };
  }
  if (today < dates.due) return { ...shown, status: 'not-yet' };
  const late = dates.overdueAfter !== null && today > dates.overdueAfter;
  return { ...shown, status: late ? 'overdue' : 'due' };
}

function timesOf(target: Target, doses: readonly number[], day: number): string {
  let done = doses.filter((one) => one === day).length;
  return target.times.map((at) => `${textOf(day)} ${at} ${done-- > 0 ? 'done' : 'open'}`).join(', ');
}

/** Walk the days: the first on which it may be done, on which it should be, and the last on which it is in time. */
function datesOf(sim: Simulator, schedule: Schedule, target: Target, walked: Pick<Walked, 'doses' | 'last'>): Dates {
  const { today } = sim.told;
  const starts = target.intervals.map((interval) => ({ interval, from: sim.startOf(interval.from, walked, today) }));
  const since = ['age', 'arrival'].includes(target.on.is) ? null : sim.called(target);
  const mayBeDone = (day: number): boolean => {
    const age = target.age.minimum ?? target.age.absoluteMinimum;
    if (age !== undefined && !sim.isAged(age, day)) return false;
    if (target.on.is === 'arrival' && day < sim.arrived) return false;
    if (since !== null && day < since) return false;
    if (walked.last !== null && day < walked.last) return false;
    return starts.every(({ interval, from }) => {
      const least = interval.minimum ?? interval.absoluteMinimum;
      return from === null || least === undefined || day >= later(from, least.span);
    });
  };
  const free = (day: number): boolean => sim.awayOn(schedule, day, today) === null;
  const open = firstDay(sim.oldest, mayBeDone) ?? Number.NaN;
  let earliest = firstDay(open, free) ?? Number.NaN;
  if (earliest < today && !free(today)) earliest = firstDay(today, free) ?? Number.NaN;

  const recommended = target.age.earliestRecommended;
  const isRecommended = (day: number): boolean =>
    recommended !== undefined
      ? sim.isAged(recommended, day)
      : starts.every(({ interval, from }) => {
          const span = interval.earliestRecommended;
          return from === null || span === undefined || day >= later(from, span.span);
        });
  const due = firstDay(earliest, isRecommended) ?? Number.NaN;
  const ends = starts.flatMap(({ interval, from }) =>
    from === null || interval.latestRecommended === undefined ? [] : [later(from, interval.latestRecommended.span)],
  );
  const lateAge = target.age.latestRecommended;
  const late = lateAge !== undefined ? sim.ageDay(lateAge) : ends.length > 0 ? Math.max(...ends) : null;
  const { maximum } = target.age;
  const stop = maximum ?? (target.repeats?.ends === 'before' ? (target.repeats.until ?? undefined) : undefined);
  return {
    earliest,
    due,
    overdueAfter: late === null ? null : Math.max(late - 1, due),
    latest: stop === undefined ? null : sim.ageDay(stop) - 1,
  };
}

interface Held {
  readonly code: string;
  readonly until: number | null;
}

/** Of all that hold it on a day the one that lasts longest, the first of those that last as long. */
function holdOn(sim: Simulator, schedule: Schedule, day: number): Held | null {
  const { told } = sim;
  const { animal, today } = told;
  const holds: Held[] = [];
  if (schedule.action === 'chip') {
    const unread = animal.history.filter((event) => event.what === 'chipped' && !event.confirmed);
    if (unread.length > 0 || animal.chip?.confirmed === false) holds.push({ code: 'chip-not-confirmed', until: null });
  }
  for (const one of animal.holds) {
    const covers = numberOf(one.from) <= day && (one.until === null || day <= numberOf(one.until));
    const mine = one.schedules === 'all' || one.schedules.some((id) => id === schedule.id);
    if (covers && mine) holds.push({ code: one.code, until: one.until === null ? null : numberOf(one.until) });
  }
  for (const rule of schedule.holds) {
    const { state, until } = ruleOn(sim, rule, day);
    if (state === 'present' && rule.present === 'hold') holds.push({ code: rule.id, until });
    if (state === 'unknown' && rule.unknown === 'hold') holds.push({ code: `${rule.id}-unknown`, until: null });
  }
  for (const needed of schedule.needsFirst) {
    const other = sim.scheduleOf(needed.schedule);
    if (other === undefined) continue;
    const walked = sim.walk(other);
    if (walked.series === null) continue;
    if (!sim.isComplete(other)) holds.push({ code: 'needs-first', until: null });
    else if (needed.result === 'negative' && walked.deeds.some((deed) => deed.result === 'reactive'))
      holds.push({ code: 'reactive-first', until: null });
  }
  const young = underLabelAge(sim, schedule, day);
  if (young !== null) holds.push({ code: 'under-label-age', until: young });
  if (schedule.minimumWeight !== null) {
    const known = animal.weighings.filter((one) => !one.doubtful && numberOf(one.on) <= today);
    const last = known[known.length - 1];
    if (last !== undefined && last.grams < schedule.minimumWeight.grams)
      holds.push({ code: 'under-weight', until: null });
  }
  const longest = Math.max(...holds.map((one) => one.until ?? Number.POSITIVE_INFINITY));
  return holds.find((one) => (one.until ?? Number.POSITIVE_INFINITY) === longest) ?? null;
}

function underLabelAge(sim: Simulator, schedule: Schedule, day: number): number | null {
  if (schedule.labelAge === 'leave') return null;
  const products = sim.told.catalogue.products.filter((one) =>
    one.classes.some((name) => schedule.satisfiedBy.includes(name)),
  );
  if (products.length === 0) return null;
  const mayUse = (when: number): boolean =>
    products.some(({ labelMinAge }) => labelMinAge === null || when >= later(sim.youngest, labelMinAge));
  if (mayUse(day)) return null;
  return (firstDay(day, mayUse) ?? Number.NaN) - 1;
}

function ruleOn(sim: Simulator, rule: HoldRule, day: number): { state: string; until: number | null } {
  const { told } = sim;
  const { sex, neutered } = told.animal;
  const other = rule.concerns.sex !== undefined && sex !== 'unknown' && sex !== rule.concerns.sex;
  const spared = rule.concerns.unneutered === true && neutered === 'yes';
  const young = rule.concerns.from !== undefined && !sim.isAged(rule.concerns.from, day);
  const concerned = !other && !spared && !young;
  if (rule.when.is === 'observation') {
    const lasts = rule.lasts;
    const seen = sight(told, rule.when.code, day, lasts === null ? null : (since) => later(since, lasts.span));
    if (seen.state === 'present') return seen;
    return { state: concerned ? seen.state : 'absent', until: null };
  }
  const { of, result } = rule.when;
  const schedule = sim.scheduleOf(of);
  const tests =
    schedule === undefined
      ? []
      : sim.walk(schedule).deeds.filter((one) => one.result !== null && one.day <= told.today);
  const matching = tests.filter((one) => one.result === result);
  const last = matching[matching.length - 1];
  if (last !== undefined) {
    const answer = sight(told, rule.id, day);
    const answered = answer.state === 'absent' && answer.since !== null && answer.since >= last.day;
    return { state: answered ? 'absent' : 'present', until: null };
  }
  return { state: tests.length > 0 || !concerned ? 'absent' : 'unknown', until: null };
}

/** Past deeds of every schedule in use, as the simulator judges them. */
export function judgeAll(told: Told): string[] {
  const sim = new Simulator(told);
  return told.document.schedules
    .filter((one) => one.active)
    .flatMap((schedule) =>
      sim
        .walk(schedule)
        .judged.map((one) =>
          [
            schedule.id,
            one.record,
            one.status,
            one.reason,
            one.dose,
            one.validFrom === null ? null : textOf(one.validFrom),
          ].join(' '),
        ),
    );
}
