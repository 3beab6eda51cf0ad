import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { commandLine, expectSentence } from './support/command-line.js';

const { folder, on, ownCopy, there } = commandLine();
const given = (name: string): string => fileURLToPath(new URL(`../import/files/${name}`, import.meta.url));

interface Found {
  readonly counts: Record<string, number>;
  readonly questions: { option: string; ask: { say: string; words: string } }[];
  readonly doubts: { say: string }[];
  readonly rows: { label: string; verdict: string; reasons: { say: string }[]; animal: { born: object } | null }[];
}
const seen = async (file: string, ...args: string[]): Promise<Found> =>
  JSON.parse((await on(there.demo, 'import', file, '--dry-run', '--json', ...args)).out) as Found;
const asked = ({ questions }: Found): string[] => questions.map(({ option, ask }) => `${option} ${ask.say}`);

describe('ages without a day (Verifies: IMP-R21)', () => {
  const file = given('ages-without-day.csv');
  test('are asked about in the words of the page, with the option that answers', async () => {
    const { out, code } = await on(there.demo, 'import', file, '--dry-run');
    expect(code).toBe(0);
    expect(out).toContain('On which day were the ages of this file true? 4 rows have an age (“1 year 7 months”)');
    expect(out).toContain('Answer with --age-on.');
    const before = await seen(file);
    expect(asked(before)).toEqual(['--age-on import.ask-age-day']);
    expect(before.counts).toMatchObject({ accepted: 1, doubtful: 5 });
  });
  test('count from the day given', async () => {
    const after = await seen(file, '--age-on', '2026-05-01');
    expect(asked(after)).toEqual([]);
    expect(after.counts).toMatchObject({ accepted: 4, doubtful: 2 });
    expect(after.rows[1]?.animal?.born).toEqual({ earliest: '2026-01-02', latest: '2026-02-01', basis: 'estimated' });
  });
  test.each(['yesterday', '2999-01-01', '2026-02-30'])('"%s" is no such day', async (day) => {
    expectSentence(
      await on(there.demo, 'import', file, '--dry-run', '--age-on', day),
      2,
      `“${day}” is none of arrival`,
    );
  });
});

describe('columns that may tell who has died or left (Verifies: IMP-R22)', () => {
  const file = given('gone-not-used.csv');
  const open = '--map import.ask-may-tell';
  test('nothing is recorded before they are answered', async () => {
    const data = ownCopy();
    expect(asked(await seen(file))).toEqual([open, open, open]);
    const refused = await on(data, 'import', file, '--by', 'Ada Quill', '--doubtful');
    expect([refused.code, refused.err.trim()]).toEqual([
      1,
      'Nothing was recorded: the column “Status” may tell who has died or left. Say with --map what it is, or “Status=nothing”.',
    ]);
    const answers = ['--map', 'Status=leftHow', '--map', 'Last move=nothing', '--map', 'Cause of death=nothing'];
    const { out, code } = await on(data, 'import', file, '--by', 'Ada Quill', ...answers);
    expect(code).toBe(0);
    expect(out).toContain('Recorded: 3 animals of 6 rows.');
    expect(out).toContain('The file says “Died in care”: the animal is not here any more.');
  });
});

test('notices are about the columns as they are mapped (Verifies: IMP-R25)', async () => {
  const file = join(folder, 'own-headings.csv');
  writeFileSync(file, 'Ref,Beast,Came,Where\nR1,cat,2026-05-10,Intake\nR2,cat,2026-05-11,Intake\n');
  const told = async (...args: string[]) => (await seen(file, ...args)).doubts.map(({ say }) => say);
  expect(await told('--map', 'Beast=nothing')).toEqual([
    'import.no-species-column',
    'import.no-arrival-column',
    'import.no-place-column',
  ]);
  const mapped = ['--map', 'Beast=species', '--map', 'Came=arrived', '--map', 'Where=place'];
  expect(await told(...mapped)).toEqual([]);
});
