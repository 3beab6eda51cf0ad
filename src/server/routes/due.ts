import { setImmediate } from 'node:timers/promises';
import type { z } from 'zod';
import type { DueAsked, DueLine, DueList } from '../../api/wire.js';
import { isOrderSchedule, orderSchedule } from '../../core/animal/vet-order.js';
import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import { AnimalId, ScheduleId } from '../../core/ids.js';
import { dueLine } from '../../exports/due-line.js';
import type { AnimalRow, DueRow } from '../../log/read-rows.js';
import { dueRow } from '../../log/rows/rows.js';
import type { LogStore } from '../../log/store.js';
import { foldAnimal } from '../../log/views/animal.js';
import { lostInWords } from '../../log/views/documents/lost-documents.js';
import { dueOf } from '../../log/views/due/due.js';
import { scheduleNamed } from '../../log/views/due/schedules.js';
import { effective } from '../../log/views/effective.js';
import { groundOf } from '../../log/views/ground.js';
import { type Shelter, whyNoDocuments } from '../../log/views/shelter.js';
import { ownRecords } from '../../store/subject.js';
import { animalsOf } from '../../store/verify.js';
import type { Say } from '../../words/say.js';
import { type Asked, arrivalNow, type Context } from '../context.js';
import { type Refusal, refuseBecause } from '../refusal.js';

/** What is due for the animals in care on a day, in the order in which they are met on a round. */
export async function dueList(
  context: Context,
  asked: Asked<z.output<typeof DueAsked>, undefined>,
): Promise<z.output<typeof DueList> | Refusal> {
  const { query, shelter, say } = asked;
  const lost = lostInWords(shelter);
  if (lost !== null) return refuseBecause('document-damaged', lost);
  const today = dayOfInstant((await arrivalNow(context)).receivedAt, shelter.zone);
  const on = query.on ?? today;
  const unreadable = await context.unreadable();
  const lines = await dueLines(context.store, shelter, on, say);
  return {
    on,
    demo: shelter.demo,
    nothingBecause: nothingBecause(shelter, say),
    unreadable,
    lines: lines.filter(
      (line) =>
        (query.section === undefined || line.section === query.section) &&
        (query.schedule === undefined || line.schedule === query.schedule) &&
        (query.status === undefined || query.status.includes(line.status)) &&
        (query.until === undefined || (line.due !== null && line.due <= query.until)),
    ),
  };
}

/** Why nothing is worked out as due, as a sentence; null when a signed protocol and formulary are in force. */
export function nothingBecause(shelter: Shelter, say: Say): string | null {
  const why = whyNoDocuments(shelter);
  return why === null ? null : say(why);
}

/** Every due item of every animal in care on a day, with the names and the sentence that people read. */
export async function dueLines(store: LogStore, shelter: Shelter, on: CalendarDate, say: Say): Promise<DueLine[]> {
  // What cannot be read any more is left out of the rows, too.
  await store.unreadable();
  const { rowsOn } = await store.head();
  const animals = new Map<string, AnimalRow>();
  for (const row of await store.rows('animals', { left_on: null })) animals.set(row.animal, row);
  const rows = rowsOn === on ? await store.rows('due_items') : await dueRowsOn(store, shelter, on);
  const orders = await orderNames(store, rows);
  const sections = new Map(
    shelter.sections.map((section, index) => [section.id as string, { index, name: section.name }]),
  );
  const place = (line: DueLine): number => sections.get(line.section ?? '')?.index ?? sections.size;
  return rows
    .flatMap((row) => {
      const animal = animals.get(row.animal);
      return animal === undefined ? [] : [lineOf(row, animal, shelter, sections, orders, say)];
    })
    .sort(
      (a, b) =>
        place(a) - place(b) ||
        inWords(a.kennel, b.kennel) ||
        inWords(a.name, b.name) ||
        inWords(a.schedule, b.schedule),
    );
}

const inWords = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true });

/** What the orders among the rows are called, by their schedules: of the animals that have any, and of no others. */
async function orderNames(store: LogStore, rows: readonly DueRow[]): Promise<ReadonlyMap<string, string>> {
  const names = new Map<string, string>();
  const animals = new Set(rows.filter(({ schedule }) => isOrderSchedule(schedule)).map(({ animal }) => animal));
  for (const animal of animals) {
    const { records } = await ownRecords(store, AnimalId.parse(animal));
    for (const one of effective(records)) {
      if (one.kind === 'order-written') names.set(orderSchedule(one.id), one.body.order.name);
    }
  }
  return names;
}

/** Another day than the read tables stand for: worked out from the records of those in care, one after the other. */
async function dueRowsOn(store: LogStore, shelter: Shelter, on: CalendarDate): Promise<DueRow[]> {
  const ground = groundOf(shelter, null);
  const rows: DueRow[] = [];
  for await (const id of animalsOf(store, true)) {
    const { records } = await ownRecords(store, id);
    const animal = foldAnimal(id, records, ground);
    if (animal !== null) rows.push(...dueOf(animal, ground, on).map((item) => dueRow(animal, item)));
    // Others are answered in between.
    await setImmediate();
  }
  return rows;
}

function lineOf(
  row: DueRow,
  animal: AnimalRow,
  shelter: Shelter,
  sections: ReadonlyMap<string, { readonly name: string }>,
  orders: ReadonlyMap<string, string>,
  say: Say,
): DueLine {
  const schedule = ScheduleId.parse(row.schedule);
  const named = {
    section: sections.get(row.section ?? '')?.name ?? '',
    schedule: scheduleNamed(shelter, schedule)?.name ?? orders.get(schedule) ?? schedule,
  };
  return dueLine(row, animal, named, say);
}
