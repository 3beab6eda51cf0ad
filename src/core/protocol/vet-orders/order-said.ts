import { type OrderTerms, type OrderTiming, timesADay } from '../../animal/vet-order.js';
import { amountWritten, orderedSaid } from '../../dosing/ordered.js';
import { writeNumber } from '../../quantity/write.js';
import { type Said, said } from '../../said.js';

/** When an order's treatment is done. */
export function timingSaid(timing: OrderTiming): Said {
  switch (timing.is) {
    case 'days':
      return said('due.order.days', { n: timing.every });
    case 'times':
      return said('due.order.times', { times: { list: timing.times } });
    case 'hours':
      return said('due.order.hours', { n: timing.every });
    case 'as-needed':
      return said('due.order.as-needed', { reason: timing.reason, turn: timing.turn });
  }
}

/** How near to each other two of an order may be, and how much of it in a day; none where its rhythm says it all. */
export function limitsSaid({ leastHours, mostADay }: Pick<OrderTerms, 'leastHours' | 'mostADay'>): Said[] {
  return [
    ...(leastHours === null ? [] : [said('due.order.least-hours', { hours: writeNumber(String(leastHours)) })]),
    ...(mostADay === null
      ? []
      : [
          mostADay.unit === 'times'
            ? said('due.order.most-times', { n: Number(mostADay.amount) })
            : said('due.order.most-amount', { amount: amountWritten(mostADay.amount, mostADay.unit) }),
        ]),
  ];
}

/** The dose of an order with what changes on later days, a sentence each; none where it is no figure. */
export function dosesSaid({ dose, timing, steps }: Pick<OrderTerms, 'dose' | 'timing' | 'steps'>): Said[] {
  if (dose === null) return [];
  let now = timing;
  const first = orderedSaid({ dose, timesADay: timesADay(now) });
  return [
    first,
    ...steps.map((step) => {
      now = step.timing ?? now;
      const amount = orderedSaid({ dose: step.dose, timesADay: timesADay(now) });
      const timing = step.timing === null ? 'same' : timingSaid(step.timing);
      return said('order.dose.from-day', { day: step.fromDay, amount, timing });
    }),
  ];
}
