import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import type { Animal } from '../../src/core/animal/animal.js';
import { sectionRanks } from '../../src/core/biosecurity/section.js';
import { CalendarDate } from '../../src/core/calendar.js';
import { SectionId } from '../../src/core/ids.js';
import { forecast } from '../../src/core/protocol/engine/forecast.js';
import { dueRow } from '../../src/log/rows/rows.js';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';
import { cpuNow, figure, largest, median, type Report } from '../report.js';
import type { Yardstick } from '../yardstick.js';
import { chance, herd } from './animals.js';
import { formulary, protocol } from './documents.js';

const today = CalendarDate.parse('2026-06-15');
const animalsInSection = 60;

/** The due list of one section out of a million stored items, read through the store that the program itself uses. */
export async function dueList(report: Report, yardstick: Yardstick, items: number): Promise<void> {
  report.heading('### Due list of one section out of many stored items');
  const folder = mkdtempSync(join(tmpdir(), 'due-list-'));
  try {
    const opened = await openStore(folder);
    if (!opened.ok) throw new Error(opened.why.say);
    const store = opened.value;
    const engine = new SqliteDatabase(join(folder, storeFile));
    const { sections, expected } = fill(engine, items);
    engine.exec('ANALYZE');

    const random = chance(7);
    const times: number[] = [];
    let rows = 0;
    for (let turn = 0; turn < 220; turn += 1) {
      const section = `section-${Math.floor(random() * sections)}`;
      const start = cpuNow();
      const due = await store.rows('due_items', { section, status: 'due' });
      const late = await store.rows('due_items', { section, status: 'overdue' });
      const ms = cpuNow() - start;
      // The first turns warm up the engine's cache and are not counted.
      if (turn >= 20) times.push(ms);
      if (due.length + late.length !== expected.get(section))
        throw new Error(`${section} lists other items than it has`);
      rows += due.length + late.length;
    }
    const plan = engine
      .prepare("EXPLAIN QUERY PLAN SELECT * FROM due_items WHERE section = 'section-1' AND status = 'due'")
      .all();
    const stored = engine.prepare('SELECT count(*) AS n FROM due_items').get() as { n: number };
    report.line(
      `${stored.n.toLocaleString('en')} rows of due_items in SQLite, ${sections.toLocaleString('en')} sections of ${animalsInSection} animals; due and overdue items of a section taken at random, ${figure(rows / 220, 0)} rows on average. ${JSON.stringify((plan[0] as { detail?: string } | undefined)?.detail ?? '')}`,
    );
    report.table(
      ['sections read', 'ms, median', 'ms, largest'],
      [[String(times.length), figure(median(times)), figure(largest(times))]],
    );
    yardstick.again();
    report.goal('due list of a section, median over the yardstick', median(times) / yardstick.ms(), 2.5);
    report.goal('due list of a section, largest over the yardstick', largest(times) / yardstick.ms(), 13);
    engine.close();
    await store.close();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const unnamed = {
  label: '',
  name: '',
  litter: null,
  kennel: '',
  marks: { collar: '', coat: '', mark: '', photo: null },
  notes: '',
  sign: null,
  scans: [],
  orders: [],
};

/** Real rows of real forecasts; every section's due and overdue ones are counted on the way in. */
function fill(engine: SqliteDatabase.Database, items: number) {
  const next = herd(protocol, formulary, today, 3);
  const animals = Math.ceil(items / protocol.schedules.length);
  const expected = new Map<string, number>();
  const columns = [
    'animal',
    'section',
    'schedule',
    'status',
    'dose',
    'earliest',
    'due',
    'overdue_after',
    'latest',
    'hold_code',
    'hold_until',
    'because',
    'protocol',
  ] as const;
  const addItem = engine.prepare(
    `INSERT INTO due_items (${columns.join(', ')}) VALUES (${columns.map((one) => `@${one}`).join(', ')})`,
  );
  const addAnimal = engine.prepare(
    `INSERT INTO animals (animal, label, name, section, kennel, sex, neutered, born_earliest, born_latest, arrived_on)
     VALUES (?, '', ?, ?, '', ?, ?, ?, ?, ?)`,
  );
  const write = engine.transaction((count: number, from: number) => {
    for (let at = from; at < from + count; at += 1) {
      const animal: Animal = {
        ...unnamed,
        ...next(),
        followUps: [],
        section: SectionId.parse(`section-${Math.floor(at / animalsInSection)}`),
      };
      const { id, section, sex, neutered, born, arrivedOn } = animal;
      addAnimal.run(id, id, section ?? '', sex, neutered, born.earliest, born.latest, arrivedOn);
      const input = { animal, formulary, rank: sectionRanks[at % sectionRanks.length] ?? null };
      for (const item of forecast(input, protocol, today)) {
        addItem.run(dueRow(animal, item));
        if (item.status === 'due' || item.status === 'overdue')
          expected.set(section ?? '', (expected.get(section ?? '') ?? 0) + 1);
      }
    }
  });
  for (let from = 0; from < animals; from += 2_000) write(Math.min(2_000, animals - from), from);
  return { sections: Math.floor(animals / animalsInSection), expected };
}
