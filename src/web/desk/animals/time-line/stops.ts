import type { DayNumber } from '../../../../core/calendar.js';
import { dayFromNumber } from '../../../../core/calendar.js';
import { stateOfDue, treatmentName } from '../../../../told/due-words.js';
import { say } from '../../../../words/say.js';
import { signOf } from './glyphs.js';
import type { Lane } from './lanes.js';

/** One place of a lane in words: read out when it is reached, and one row of the table. */
export interface Stop {
  readonly key: string;
  readonly day: DayNumber;
  /** Given, due, on hold ... */
  readonly what: string;
  readonly words: string;
}

/** Everything of a lane in order of days. */
export function stopsOf({ marks, windows, hold, item }: Lane): Stop[] {
  const given = marks.map(
    ({ day, worth }): Stop => ({
      key: `given ${worth.record} ${day}`,
      day,
      what: say(`timeline.worth.${signOf(worth)}`),
      words: say(worth.why),
    }),
  );
  const due = windows.map((one): Stop => {
    const values = {
      treatment: treatmentName(one.item),
      from: { date: dayFromNumber(one.from) },
      due: { date: dayFromNumber(one.due) },
      to: one.to === null ? say('timeline.no-last-day') : { date: dayFromNumber(one.to) },
    };
    return {
      key: `due ${one.ahead}`,
      day: one.due,
      what: one.ahead === 0 ? stateOfDue(one.item).text : say('timeline.later'),
      words: one.ahead === 0 ? say('timeline.window', values) : say('timeline.window-later', values),
    };
  });
  const held: Stop[] =
    hold === null || item.hold === null
      ? []
      : [{ key: 'hold', day: hold.from, what: say('timeline.hold'), words: say(item.hold.why) }];
  return [...given, ...held, ...due].sort((a, b) => a.day - b.day);
}
