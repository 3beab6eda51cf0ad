import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';

const start = '2026-05-14T18:30:00.000Z';
/** Invented. The ages were true on 1 May 2026, which the list does not say. */
const list = `Tag no,Called,Species,Came in,Reason,Age,Place,Last move
H1,Agrimony,cat,2025-09-21,Born in shelter,7 months,Intake,
H2,Sorrel,cat,2026-04-01,Stray,3 months,Intake,
H3,Quillwort,cat,2026-04-20,Stray,5 weeks,Intake,2026-05-02
H4,Bay,dog,2026-04-21,Stray,2 years,Intake,
H5,Moss,DSH,2026-04-22,Stray,,Intake,
`;

const shelter = openShelter('import-asks', start, { desk: { acceptDownloads: true } });
let { desk }: Opened = {} as Opened;

beforeAll(() => {
  ({ desk } = shelter());
});

const column = (heading: string) => desk.page.getByLabel(`What “${heading}” means`);
const question = 'On which day were the ages of this file true?';
/** How many rows stand under each verdict: as they are, to be looked at, not taken. */
const counts = async (): Promise<string> => {
  const texts = await desk.page.locator('label.choice').allTextContents();
  const of = (word: string): string => new RegExp(`${word}: (\\d+)`).exec(texts.join(' '))?.[1] ?? '?';
  return [of('taken as they are'), of('to be looked at'), of('not taken')].join(' ');
};

describe.sequential('a file that leaves things open', () => {
  it('shows what it asks, and nothing can be brought in before', async () => {
    await desk.open('/');
    await desk.press('Try the demo');
    await desk.page.locator('label.choice').first().waitFor();
    await desk.workAs('Ada Quill');
    await desk.open('/import');
    await desk.page
      .locator('input[type=file]')
      .setInputFiles({ name: 'cattery.csv', mimeType: 'text/csv', buffer: Buffer.from(list) });
    await desk.says(question);
    // The number and the name were recognised under headings of their own; only the name was not.
    await column('Called').selectOption('name');
    await expect.poll(counts).toBe('1 3 1');
    await desk.says('The age “7 months” is not used before somebody has said on which day');
    await desk.says('The column “Last move” says “2026-05-02”. Has the animal died or left?');
    await desk.says('2 questions above are open.');
    expect(await desk.button(/^Bring in/).isDisabled()).toBe(true);
    await desk.lookAt('questions about a file');
  });

  it('notices come and go with the columns (Verifies: IMP-R25)', async () => {
    const notice = 'No column tells the species: every row is taken as a cat.';
    await desk.saysNot(notice);
    await column('Species').selectOption('');
    await desk.says(notice);
    await column('Species').selectOption('species');
    await desk.settles(notice);
  });

  it('ages count from the day that a person names (Verifies: IMP-R21)', async () => {
    await desk.choose('on each animal’s day of arrival');
    await desk.says(/The file says “Born in shelter” and that it arrived on 21 September 2025, but/);
    await expect.poll(counts).toBe('2 2 1');
    await desk.choose('on one day for all');
    await expect.poll(counts).toBe('1 3 1');
    await desk.type('Which day?', '2026-06-01');
    await desk.says('This day has not been yet.');
    await desk.type('Which day?', '2026-05-01');
    await expect.poll(counts).toBe('3 1 1');
    await desk.says('1 question above is open.'.replace('1', 'One'));
  });

  it('the column that tells of leaving is used, or said to tell nothing (Verifies: IMP-R22)', async () => {
    await desk.pick(/What does the column “Last move” tell/, 'it does not tell who has died or left');
    await expect.poll(counts).toBe('4 0 1');
    await desk.pick(/What does the column “Last move” tell/, 'use it as: day of leaving');
    await expect.poll(counts).toBe('3 0 2');
    expect(await column('Last move').inputValue()).toBe('left');
    // Taken away again, it is asked again.
    await column('Last move').selectOption('');
    await desk.says(/may tell who has died or left \(1 row/);
    await expect.poll(counts).toBe('3 1 1');
    await desk.pick(/What does the column “Last move” tell/, 'use it as: day of leaving');
    await desk.settles(/question above is open/);
    await desk.lookAt('answered questions about a file');
  });

  it('the rest can be kept as a list (Verifies: IMP-R26)', async () => {
    await desk.press('Bring in 3 animals');
    await desk.says('3 animals were brought in from cattery.csv.');
    const download = desk.page.waitForEvent('download');
    await desk.press('Save the 2 rows not taken as a list');
    const saved = readFileSync(await (await download).path(), 'utf8').replace('\uFEFF', '');
    expect(saved.trimEnd().split('\r\n')).toEqual([
      'row in the file,why not taken,Tag no,Called,Species,Came in,Reason,Age,Place,Last move',
      '4,Left on 2 May 2026.,H3,Quillwort,cat,2026-04-20,Stray,5 weeks,Intake,2026-05-02',
      '5,Not a cat: dog.,H4,Bay,dog,2026-04-21,Stray,2 years,Intake,',
    ]);
    await desk.open('/animals');
    await desk.says('Agrimony');
    await desk.saysNot('Quillwort');
  });
});
