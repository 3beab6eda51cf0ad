import { CalendarDate, dayOfInstant, instantAt } from '../../src/core/calendar.js';
import { AnimalId, DeviceId, PersonId, ShelterId } from '../../src/core/ids.js';
import { makeDemo } from '../../src/demo/make-demo.js';
import { takeIn, weighAnimal } from '../../src/log/commands/animal.js';
import { give } from '../../src/log/commands/round.js';
import { type Draft, type LogRecord, stamp } from '../../src/log/record.js';
import { applyToWorld, buildWorld, dueIn, inCare, type World } from '../../src/log/views/world.js';
import { cpuNow, figure, median, type Report } from '../report.js';
import type { Yardstick } from '../yardstick.js';
import { chance } from './animals.js';
import { formulary, protocol } from './documents.js';

const today = CalendarDate.parse('2026-06-15');
const zone = 'America/Chicago';

/** From a new record to the animal's new due items: taken into the world, the animal folded again, forecast anew. */
export function oneRecord(report: Report, yardstick: Yardstick): void {
  report.heading('### Due items after one new record');
  const rows: string[][] = [];
  for (const animals of [0, 300, 1_000]) {
    const world = shelterOf(animals);
    const times = timesOf(world);
    yardstick.again();
    const here = inCare(world).length;
    rows.push([
      String(here),
      world.ids.size.toLocaleString('en'),
      figure(median(times)),
      figure([...times].sort((a, b) => a - b)[Math.floor(times.length * 0.95)] ?? 0),
    ]);
    report.goal(`new due items, ${here} animals, median over the yardstick`, median(times) / yardstick.ms(), 0.25);
  }
  report.line(
    'The shelter of the demo alone, and with so many more animals of 20 records each. CPU time from record to due items:',
  );
  report.table(['animals', 'records', 'ms, median', 'ms, 95 of 100'], rows);
}

function timesOf(start: World): number[] {
  let world = start;
  const random = chance(11);
  const animals = inCare(world);
  for (const animal of animals) dueIn(world, animal, today);
  const times: number[] = [];
  for (let turn = 0; turn < 500; turn += 1) {
    const { id } = animals[Math.floor(random() * animals.length)] ?? { id: AnimalId.parse('none') };
    const records = stamped(
      weighAnimal(id, { grams: 1000 + turn, entered: `${1000 + turn} g` }, instantAt(today, '07:00', zone)),
      `w${turn}`,
      turn + 1,
    );
    const before = world.animals.get(id);
    const from = cpuNow();
    world = applyToWorld(world, records);
    const animal = world.animals.get(id);
    const due = animal === undefined ? [] : dueIn(world, animal, today);
    const ms = cpuNow() - from;
    if (turn >= 50) times.push(ms);
    if (due.length === 0 || animal === before) throw new Error('the record changed nothing');
  }
  return times;
}

const stamped = (drafts: readonly Draft[], name: string, seq: number): LogRecord[] =>
  stamp(drafts, {
    shelter: ShelterId.parse('bench'),
    zone,
    by: PersonId.parse('ines'),
    device: DeviceId.parse('bench'),
    nextSeq: seq,
    now: instantAt(today, '07:30', zone),
    newId: (() => {
      let count = 0;
      return () => `${name}-${count++}`;
    })(),
  });

function shelterOf(more: number): World {
  const now = instantAt(today, '08:00', zone);
  const { records } = makeDemo({ today, now, zone, seed: 1, protocol, formulary });
  const section = buildWorld(records).shelter.sections[0]?.id ?? null;
  const days = Array.from({ length: 19 }, (_, at) => CalendarDate.parse(`2026-05-${String(10 + at).padStart(2, '0')}`));
  for (let at = 0; at < more; at += 1) {
    const id = AnimalId.parse(`more-${at}`);
    const body = {
      label: `B${at}`,
      name: '',
      litter: null,
      sex: 'female' as const,
      neutered: 'unknown' as const,
      born: {
        earliest: CalendarDate.parse('2026-03-01'),
        latest: CalendarDate.parse('2026-03-01'),
        basis: 'known' as const,
      },
      arrivedOn: CalendarDate.parse('2026-05-01'),
      section,
      kennel: 'A1',
      marks: { collar: '', coat: '', mark: '', photo: null },
    };
    const arrived = takeIn(id, body, instantAt(CalendarDate.parse('2026-05-01'), '09:00', zone));
    if (!arrived.ok) throw new Error('not taken in');
    const product = formulary.products[at % 3]?.id ?? ('' as never);
    const drafts = days.flatMap((on, index) =>
      index % 3 === 0
        ? give(
            id,
            { schedule: null, product, lot: null, volume_ul: 100, route: 'by mouth' },
            instantAt(on, '10:00', zone),
          )
        : weighAnimal(id, { grams: 700 + index, entered: `${700 + index} g` }, instantAt(on, '10:00', zone)),
    );
    records.push(...stamped([...arrived.value, ...drafts], `m${at}`, at * 20 + 1));
  }
  if (dayOfInstant(now, zone) !== today) throw new Error('another day');
  return buildWorld(records);
}
