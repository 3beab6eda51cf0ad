import type { DueLine } from '../../api/wire.js';
import { asDay, type CalendarDate, dayOfInstant, daysBetween } from '../../core/calendar.js';
import { said } from '../../core/said.js';
import { dueCsv } from '../../exports/due-csv.js';
import { stopOf } from '../../log/prepare/prepare.js';
import { lostInWords } from '../../log/views/documents/lost-documents.js';
import { dueIn, type World } from '../../log/views/world.js';
import { dueLines, nothingBecause } from '../../server/routes/due.js';
import { say } from '../../words/say.js';
import { type Command, dataOption } from '../command.js';
import { complainOfUnread, withWorld, worldInCare } from '../data-folder.js';
import { done, failed, isExit, misused } from '../exit.js';
import { sectionCalled } from '../find.js';
import { pour, tell } from '../output.js';
import { calledIn, cautions } from '../round-in-words.js';

const statuses = [
  'due',
  'overdue',
  'to-confirm',
  'ended-missed',
  'when-needed',
  'not-yet',
  'on-hold',
  'complete',
  'aged-out',
  'not-recommended',
  'all',
] as const;

/** What is due, for whom, where, and why. */
export const due: Command = {
  name: 'due',
  options: {
    ...dataOption,
    section: { value: 'NAME' },
    schedule: { value: 'ID' },
    date: { value: 'YYYY-MM-DD' },
    status: { value: 'STATUS', many: true, oneOf: statuses },
    csv: {},
    json: {},
  },
  example: 'due --section Quarantine --date 2026-03-15 --csv',
  run: (given) => {
    const date = given.text('date');
    if (date !== null && asDay(date) === null) return Promise.resolve(misused('cli.not-a-date', { given: date }));
    if (given.flag('csv') && given.flag('json')) return Promise.resolve(misused('cli.csv-or-json'));
    return withWorld(
      given,
      async (world, store) => {
        const { shelter } = world;
        const lost = lostInWords(shelter);
        if (lost !== null) return failed(lost);
        const asked = given.text('section');
        const section = asked === null ? null : sectionCalled(shelter, asked);
        if (isExit(section)) return section;
        const on = asDay(date ?? '') ?? dayOfInstant(new Date().toISOString(), shelter.zone);
        const wanted =
          given.texts('status').length > 0 ? given.texts('status') : ['due', 'overdue', 'to-confirm', 'ended-missed'];
        const schedule = given.text('schedule');
        complainOfUnread(world);
        const all = await dueLines(store, shelter, on, say);
        if (schedule !== null && !all.some((line) => line.schedule === schedule)) {
          const known = shelter.protocol?.schedules.map((one) => one.id) ?? [];
          if (!known.some((id) => id === schedule))
            return misused('cli.no-such-schedule', { schedule, list: { list: known } });
        }
        const lines = all
          .filter(
            (line) =>
              (wanted.includes('all') || wanted.includes(line.status)) &&
              (section === null || line.section === section.id) &&
              (schedule === null || line.schedule === schedule),
          )
          .map((line) => withStop(world, line, on));
        if (given.flag('csv')) await pour([dueCsv(lines, shelter.demo, nothingBecause(shelter, say))]);
        else if (given.flag('json')) await pour(lines.map((line) => `${JSON.stringify(line)}\n`));
        else {
          tell(say('cli.due.title', { name: shelter.name ?? '', day: { date: on }, count: lines.length }));
          for (const line of [...cautions(shelter), ...inWords(lines)]) tell(line);
          const because = nothingBecause(shelter, say);
          if (because !== null) tell(because);
        }
        return done;
      },
      worldInCare,
    );
  },
};

/**
 * A line that says what stands against its dose. Today at this moment; on another day only what the round of that day could
 * not take away itself (no weight is fresh ahead of its time).
 */
function withStop(world: World, line: DueLine, on: CalendarDate): DueLine {
  const now = new Date().toISOString();
  const days = daysBetween(dayOfInstant(now, world.shelter.zone), on);
  const at = new Date(Date.parse(now) + days * 86_400_000).toISOString();
  const animal = world.animals.get(line.animal);
  const item =
    animal === undefined ? undefined : dueIn(world, animal, on).find((one) => one.schedule === line.schedule);
  const stop = animal === undefined || item === undefined ? null : stopOf(world, animal, item, at);
  if (stop === null || (days !== 0 && stop.onCart)) return line;
  return { ...line, reason: say(said('cli.due.stopped', { reason: line.reason, why: stop.why })) };
}

/** Grouped by section and animal, as they come. */
function inWords(lines: readonly DueLine[]): string[] {
  const words: string[] = [];
  let section: string | null | undefined;
  let animal: string | undefined;
  for (const line of lines) {
    if (line.section !== section) {
      words.push('', line.sectionName === '' ? say('cli.due.no-section') : line.sectionName);
      [section, animal] = [line.section, undefined];
    }
    if (line.animal !== animal) {
      words.push(`  ${[line.kennel, say(calledIn(line))].filter((part) => part !== '').join('  ')}`);
      animal = line.animal;
    }
    words.push(`      ${say(`cli.status.${line.status}`)} ${line.scheduleName}: ${line.reason}`);
  }
  return words;
}
