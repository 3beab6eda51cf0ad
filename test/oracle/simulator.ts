import type { Condition, Schedule, Series, SourcedAge, Target } from '../../src/core/protocol/document/document.js';
import { firstDay, later, numberOf } from './days.js';
import { classesOfProduct, type Deed, deedsFor, sight, type Told } from './history.js';

/**
 * A slow second reading of a protocol, day by day, that shares no code with the engine (only the types of the
 * document). It walks each day and asks "may it be done today?" by reading the rules as docs/rules/prot.md has them.
 */
export interface Judged {
  readonly record: string;
  readonly status: string;
  readonly reason: string;
  readonly dose: number | null;
  readonly validFrom: number | null;
}

export interface Walked {
  readonly series: Series | null;
  readonly judged: Judged[];
  readonly deeds: Deed[];
  place: number;
  doses: number[];
  /** Begun again after too long a gap, and nothing that counts was done since. */
  lapsed: boolean;
  last: number | null;
  lastResult: Deed['result'];
}

export class Simulator {
  readonly #walked = new Map<string, Walked>();
  readonly oldest: number;
  readonly youngest: number;
  readonly arrived: number;

  constructor(readonly told: Told) {
    const ends = [numberOf(told.animal.born.earliest), numberOf(told.animal.born.latest)];
    this.oldest = Math.min(...ends);
    this.youngest = Math.max(...ends);
    this.arrived = numberOf(told.animal.arrivedOn);
  }

  scheduleOf(id: string): Schedule | undefined {
    return this.told.document.schedules.find((one) => one.id === id);
  }

  /** "Is it so old on this day?" */
  isAged(age: SourcedAge, day: number): boolean {
    return day >= later(age.of === 'youngest' ? this.youngest : this.oldest, age.span);
  }

  ageDay(age: SourcedAge): number {
    return later(age.of === 'youngest' ? this.youngest : this.oldest, age.span);
  }

  walk(schedule: Schedule): Walked {
    const before = this.#walked.get(schedule.id);
    if (before !== undefined) return before;
    const walked = this.#chooseSeries(schedule);
    this.#walked.set(schedule.id, walked);
    return walked;
  }

  #chooseSeries(schedule: Schedule): Walked {
    const { today } = this.told;
    for (const series of schedule.series) {
      const walked = this.#walkSeries(schedule, series);
      const firstValid = walked.judged.findIndex((one) => one.status === 'valid');
      const start = firstValid >= 0 ? (walked.deeds[firstValid]?.day ?? 0) : Math.max(today, this.arrived);
      if (series.start.from !== undefined && !this.isAged(series.start.from, start)) continue;
      if (series.start.under !== undefined && this.isAged(series.start.under, start)) continue;
      if (!series.start.when.every((condition) => this.isSo(condition, schedule, walked, today))) continue;
      this.settle(schedule, series, walked, today);
      return walked;
    }
    const deeds = deedsFor(this.told, schedule);
    const judged = deeds.map((deed): Judged => {
      const wrong = this.#wrongDay(deed);
      const said =
        wrong === null ? { status: 'extra', reason: 'not-recommended' } : { status: 'not-valid', reason: wrong };
      return { record: deed.record, ...said, dose: null, validFrom: null };
    });
    return { series: null, judged, deeds, place: 0, doses: [], lapsed: false, last: null, lastResult: null };
  }

  #wrongDay(deed: Deed): string | null {
    if (deed.day > this.told.today) return 'in-the-future';
    return deed.day < this.oldest ? 'before-birth' : null;
  }

  #walkSeries(schedule: Schedule, series: Series): Walked {
    const deeds = deedsFor(this.told, schedule);
    const walked: Walked = {
      series,
      judged: [],
      deeds,
      place: 0,
      doses: [],
      lapsed: false,
      last: null,
      lastResult: null,
    };
    for (const deed of deeds)
      walked.judged.push({ record: deed.record, ...this.#judge(schedule, series, walked, deed) });
    return walked;
  }

  #judge(schedule: Schedule, series: Series, walked: Walked, deed: Deed): Omit<Judged, 'record'> {
    const no = { dose: null, validFrom: null };
    const wrong = this.#wrongDay(deed);
    if (wrong !== null) return { status: 'not-valid', reason: wrong, ...no };
    const sameDay = walked.doses.filter((day) => day === deed.day).length;
    const perDay = series.targets[walked.place]?.times.length ?? 0;
    if (deed.fault === null && sameDay >= Math.max(perDay, 1)) return { status: 'extra', reason: 'same-day', ...no };

    this.settle(schedule, series, walked, deed.day);
    const target = series.targets[walked.place];
    const before = walked.last;
    if (deed.keepsDistance) walked.last = deed.day;
    const dose = target === undefined ? null : walked.doses.length + 1;
    if (deed.fault !== null) {
      const open = deed.fault === 'running' || deed.fault === 'not-confirmed';
      const poor = ['expired-lot', 'withdrawn-lot', 'not-taken'].includes(deed.fault);
      return {
        status: open ? 'pending' : poor ? 'substandard' : 'not-valid',
        reason: deed.fault,
        dose,
        validFrom: null,
      };
    }
    if (target === undefined) return { status: 'extra', reason: 'series-complete', ...no };
    if (target.on.is === 'clock' && !this.clockRuns(target, walked.doses, deed.day)) {
      return { status: 'extra', reason: 'series-complete', ...no };
    }
    const timing = this.#timing(schedule, series, target, { ...walked, last: before }, deed.day);
    if (timing.reason !== 'in-time' && timing.reason !== 'grace') {
      return { status: timing.reason === 'too-old' ? 'extra' : 'not-valid', dose, ...timing };
    }
    walked.doses.push(deed.day);
    walked.lapsed = false;
    if (deed.result !== null) walked.lastResult = deed.result;
    const now = walked.doses.filter((day) => day === deed.day).length;
    if (target.times.length > now) walked.last = deed.day - 1;
    if (target.repeats === null) walked.place += 1;
    return { status: 'valid', reason: timing.reason, dose, validFrom: null };
  }

  #timing(
    schedule: Schedule,
    series: Series,
    target: Target,
    walked: Walked,
    day: number,
  ): { reason: string; validFrom: number | null } {
    const { absoluteMinimum, minimum, maximum } = target.age;
    if (series.start.from !== undefined && !this.isAged(series.start.from, day)) {
      return { reason: 'too-young', validFrom: this.ageDay(series.start.from) };
    }
    const least = absoluteMinimum ?? minimum;
    if (least !== undefined && !this.isAged(least, day)) return { reason: 'too-young', validFrom: this.ageDay(least) };
    if (maximum !== undefined && this.isAged(maximum, day)) return { reason: 'too-old', validFrom: null };
    let grace = minimum !== undefined && !this.isAged(minimum, day);
    for (const interval of target.intervals) {
      const from = this.startOf(interval.from, walked, day);
      const shortest = interval.absoluteMinimum ?? interval.minimum;
      if (from === null || shortest === undefined) continue;
      const free = later(from, shortest.span);
      if (day < free) return { reason: 'too-soon', validFrom: free };
      if (interval.minimum !== undefined && day < later(from, interval.minimum.span)) grace = true;
    }
    const near = this.awayOn(schedule, day, Number.POSITIVE_INFINITY);
    if (near !== null) return { reason: 'too-near-other-product', validFrom: near };
    return { reason: grace ? 'grace' : 'in-time', validFrom: null };
  }

  /** The end of a stretch that a product given up to a day makes this schedule keep away from; null when it is free. */
  awayOn(schedule: Schedule, day: number, upTo: number): number | null {
    for (const event of this.told.animal.history) {
      if (event.what !== 'given' || event.substandard === 'not-taken' || numberOf(event.on) > upTo) continue;
      const given = numberOf(event.on);
      const product = this.told.catalogue.products.find((one) => one.id === event.product);
      const rules = [
        ...schedule.apart.filter((one) => (classesOfProduct(this.told, event.product) ?? []).includes(one.class)),
        ...schedule.apartIngredients.filter((one) => product?.ingredients.some(({ name }) => name === one.ingredient)),
      ];
      for (const { begins, ends } of rules) {
        if (day >= later(given, begins) && day < later(given, ends)) return later(given, ends);
      }
    }
    return null;
  }

  startOf(
    from: Target['intervals'][number]['from'],
    walked: Pick<Walked, 'doses' | 'last'>,
    by: number,
  ): number | null {
    switch (from.is) {
      case 'previous':
        return walked.last;
      case 'dose':
        return walked.doses[from.number - 1] ?? null;
      case 'arrival':
        return this.arrived;
      case 'observation':
        return sight(this.told, from.code, by).since;
      case 'implant':
        return this.implanted();
      case 'schedule': {
        const other = this.scheduleOf(from.schedule);
        if (other === undefined) return null;
        const walkedOther = this.walk(other);
        let found: number | null = null;
        walkedOther.deeds.forEach((deed, at) => {
          if (walkedOther.judged[at]?.status !== 'pending' && deed.day <= by && deed.keepsDistance) found = deed.day;
        });
        return found;
      }
    }
  }

  implanted(): number | null {
    const days = this.told.animal.history.flatMap((event) =>
      event.what === 'chipped' && event.implanted === true && numberOf(event.on) <= this.told.today
        ? [numberOf(event.on)]
        : [],
    );
    return days.length === 0 ? null : Math.max(...days);
  }

  settle(
    schedule: Schedule,
    series: Series,
    walked: Pick<Walked, 'place' | 'doses' | 'lapsed' | 'lastResult'>,
    day: number,
  ): void {
    const gap = series.targets[walked.place]?.restartAfter ?? null;
    const lastNow = walked.doses[walked.doses.length - 1];
    if (gap !== null && lastNow !== undefined && day > later(lastNow, gap.span)) {
      walked.place = 0;
      walked.doses = [];
      walked.lapsed = true;
    }
    for (;;) {
      const target = series.targets[walked.place];
      if (target === undefined) {
        // Through, with what was left out at its end: begun again by what is seen later than the last that counts.
        const newest = walked.doses[walked.doses.length - 1];
        if (series.again === null || newest === undefined) return;
        const { state, since } = sight(this.told, series.again, day);
        if (state !== 'present' || since === null || since <= newest) return;
        walked.place = 0;
        walked.doses = [];
        continue;
      }
      const { repeats } = target;
      let over = false;
      if (repeats?.until != null) {
        const newest = walked.doses[walked.doses.length - 1];
        over =
          repeats.ends === 'before'
            ? this.isAged(repeats.until, day)
            : newest !== undefined && this.isAged(repeats.until, newest);
      }
      const skipped = target.skip.some(({ all }) => all.every((one) => this.isSo(one, schedule, walked, day)));
      if (!over && !skipped) return;
      walked.place += 1;
    }
  }

  isSo(condition: Condition, schedule: Schedule, walked: Pick<Walked, 'doses' | 'lastResult'>, day: number): boolean {
    switch (condition.is) {
      case 'observed':
        return sight(this.told, condition.code, day).state === 'present';
      case 'doses': {
        const { from } = condition;
        return walked.doses.filter((one) => from === undefined || this.isAged(from, one)).length >= condition.atLeast;
      }
      case 'age':
        return (
          (condition.from === undefined || this.isAged(condition.from, day)) &&
          (condition.under === undefined || !this.isAged(condition.under, day))
        );
      case 'neutered':
        return this.told.animal.neutered === condition.state;
      case 'result': {
        if (condition.schedule === schedule.id) return walked.lastResult === condition.result;
        const other = this.scheduleOf(condition.schedule);
        return other !== undefined && this.walk(other).lastResult === condition.result;
      }
      case 'complete': {
        const other = this.scheduleOf(condition.schedule);
        return other !== undefined && this.isComplete(other);
      }
    }
  }

  isComplete(schedule: Schedule): boolean {
    const walked = this.walk(schedule);
    if (walked.series === null) return false;
    const target = walked.series.targets[walked.place];
    if (target === undefined) return true;
    if (!target.upkeep) return false;
    return target.on.is === 'age' || target.on.is === 'arrival' || !this.isCalled(target, walked);
  }

  clockRuns(target: Target, doses: readonly number[], day: number): boolean {
    if (target.on.is !== 'clock') return true;
    const { code } = target.on;
    const { state, since } = sight(this.told, code, day);
    if (state !== 'present' || since === null) return false;
    let end = since + 1;
    for (const { from, minimum, absoluteMinimum } of target.intervals) {
      const least = absoluteMinimum ?? minimum;
      if (from.is === 'observation' && from.code === code && least !== undefined)
        end = Math.max(end, later(since, least.span));
    }
    const last = doses[doses.length - 1];
    return last === undefined || last < end;
  }

  /** The day since which a target is called for; null while it is not. */
  called(target: Target): number | null {
    const { on } = target;
    const { today } = this.told;
    switch (on.is) {
      case 'age':
      case 'arrival':
        return Number.NEGATIVE_INFINITY;
      case 'implant':
        return this.implanted();
      case 'observation': {
        const days = [on.code, ...on.or].flatMap((code) => {
          const seen = sight(this.told, code, today);
          return seen.state === 'present' && seen.since !== null ? [seen.since] : [];
        });
        return days.length === 0 ? null : Math.max(...days);
      }
      case 'clock': {
        const seen = sight(this.told, on.code, today);
        return seen.state === 'present' ? seen.since : null;
      }
      case 'while': {
        if (sight(this.told, on.code, today).state !== 'present') return null;
        const noted = this.told.animal.observations.filter((one) => one.code === on.code && numberOf(one.on) <= today);
        const absent = noted.filter((one) => one.state === 'absent').map((one) => numberOf(one.on));
        const present = noted.filter((one) => one.state === 'present').map((one) => numberOf(one.on));
        return firstDay(this.oldest - 5000, (day) => present.includes(day) && !absent.some((one) => one > day));
      }
    }
  }

  isCalled(target: Target, walked: Pick<Walked, 'doses' | 'lapsed' | 'last'>): boolean {
    if (target.on.is === 'clock') return this.clockRuns(target, walked.doses, this.told.today);
    const since = this.called(target);
    if (since === null) return false;
    if (target.on.is !== 'observation' && target.on.is !== 'implant') return true;
    return walked.lapsed || walked.last === null || since > walked.last;
  }
}
