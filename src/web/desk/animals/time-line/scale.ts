import { type CalendarDate, type DayNumber, dayNumber } from '../../../../core/calendar.js';
import type { Lane } from './lanes.js';

/** How days lie on a strip: in percent of its width, so that it fits any screen and paper without being measured. */
export interface Scale {
  readonly from: DayNumber;
  readonly to: DayNumber;
  readonly at: (day: DayNumber) => number;
  readonly shows: (day: DayNumber) => boolean;
  readonly ticks: readonly DayNumber[];
}

export type Reach = 'near' | 'whole';

/** The near view: eight weeks back, twelve ahead; a kitten's series fits into it. */
const near = { back: 56, ahead: 84, least: 14 };
const tickSteps = [1, 2, 7, 14, 28, 56, 91, 182, 364, 728, 1456, 3640];
/** Four labels of ten figures stand side by side on a phone. */
const mostTicks = 4;

export function scaleOf(lanes: readonly Lane[], today: CalendarDate, reach: Reach): Scale {
  const now = dayNumber(today);
  const days = lanes.flatMap(({ marks, windows, hold }) => [
    ...marks.map((mark) => mark.day),
    ...windows.flatMap((one) => [one.from, one.due, one.to ?? one.due]),
    ...(hold === null ? [] : [hold.from, hold.to ?? now]),
  ]);
  const first = Math.min(now - near.least, ...days);
  const last = Math.max(now + near.least, ...days);
  const from = reach === 'whole' ? first : Math.max(first, now - near.back);
  const to = reach === 'whole' ? last : Math.min(last, now + near.ahead);
  const pad = Math.max(1, Math.round((to - from) * 0.03));
  return scaleBetween(from - pad, to + pad, now);
}

function scaleBetween(from: DayNumber, to: DayNumber, now: DayNumber): Scale {
  const step = tickSteps.find((one) => (to - from) / one <= mostTicks) ?? to - from;
  const ticks: DayNumber[] = [];
  for (let day = now - Math.floor((now - from) / step) * step; day <= to; day += step) ticks.push(day);
  return {
    from,
    to,
    at: (day) => (100 * (Math.min(to, Math.max(from, day)) - from)) / (to - from),
    shows: (day) => day >= from && day <= to,
    ticks,
  };
}
