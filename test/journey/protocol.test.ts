import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
const today = '2026-05-14';
/** The value that is changed, and the one that must follow it. */
const atLeast = /^Change: Core vaccine: Kittens under 20 weeks, dose 1: At least 2 weeks/;
const lateFrom = /^Change: Core vaccine: Kittens under 20 weeks, dose 1: Late from 2 weeks and 1 day/;
const published =
  'AAHA/AAFP, 2020 Feline Vaccination Guidelines (Stone and others), chapter Core vaccines for shelter cats';

const shelter = openShelter('protocol', start, { desk: { acceptDownloads: true } });
let { phone, desk, folder }: Opened = {} as Opened;
/** Days on which a core vaccine is due, by animal, before the new version is signed. */
let before: Map<string, Due>;
/** What the sign-off page said would change. */
const told = { noLonger: [] as string[], moved: new Map<string, string>() };

interface Due {
  readonly state: string;
  readonly due: string;
}

beforeAll(() => {
  ({ phone, desk, folder } = shelter());
});

/** The due list of one treatment, everything in it, as it stands on the screen. */
async function coreVaccineDue(): Promise<Map<string, Due>> {
  await desk.open('/due');
  await desk.choose('everything');
  await desk.page.getByRole('button', { name: /Treatment/ }).click();
  await desk.page.getByRole('option', { name: 'Core vaccine' }).click();
  await expect.poll(() => desk.page.getByRole('cell', { name: /^Roundworm/ }).count()).toBe(0);
  const rows = await desk.page.locator('main tbody tr').evaluateAll((all) =>
    all.flatMap((row) => {
      const name = row.querySelector('a')?.textContent ?? '';
      const days = [...row.querySelectorAll('dl.days > div')].map((day) => [
        day.querySelector('dt')?.textContent ?? '',
        day.querySelector('dd')?.textContent ?? '',
      ]);
      const state = row.querySelector('.state')?.textContent ?? '';
      return name === '' ? [] : [{ name, state, due: Object.fromEntries(days).Due ?? '' }];
    }),
  );
  return new Map(rows.map(({ name, state, due }) => [name, { state, due }]));
}

const plusDays = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** Goes to the treatment by the list of contents and on to one of its values, all by keyboard, and opens it. */
async function openByKeyboard(value: RegExp): Promise<void> {
  await desk.page.getByRole('navigation', { name: 'Treatments in this version' }).getByText('Core vaccine').focus();
  await desk.page.keyboard.press('Enter');
  await desk.tabTo(value);
  await desk.page.keyboard.press('Enter');
  await desk.page.getByRole('dialog').waitFor();
}

async function typeInto(field: RegExp, text: string): Promise<void> {
  await desk.tabTo(field, 20);
  await desk.page.keyboard.press('Control+A');
  await desk.page.keyboard.press('Delete');
  // At the speed of fingers: a burst of keys is taken for a chip reader.
  await desk.page.keyboard.type(text, { delay: 60 });
}

async function pressByKeyboard(name: RegExp): Promise<void> {
  await desk.tabTo(name, 30);
  await desk.page.keyboard.press('Enter');
}

/** A version of the protocol on its way from the signed one to the next, in the order of the work. */
describe.sequential('a new version of the protocol', () => {
  it('is open to everybody to read, and to the medical team to write', async () => {
    await phone.takeDemo();
    await phone.workAs('Mina Folio');
    await phone.open('/documents');
    await phone.says('version 1-demo');
    await phone.says('Everybody may read the protocol; the medical team writes it.');
    for (const name of ['Copy to a new draft', 'Read from a file', 'Choose between sources', /^Change/]) {
      expect(await phone.page.getByRole('button', { name }).count(), String(name)).toBe(0);
    }
    await phone.lookAt('protocol on the phone of a volunteer');
    await phone.open('/documents/protocol/draft');
    await phone.says('Protocol being written');
    await phone.saysNot(/Take this value|File this version/);
    await desk.workAs('Dr Petra Vellum');
    before = await coreVaccineDue();
    expect(before.size).toBeGreaterThan(20);
    await desk.lookAt('due list');
    await desk.open('/documents');
    await desk.says('version 1-demo');
    await desk.lookAt('protocol at the desk');
  });

  it('begins as a copy, and a wrong value keeps its place and gets a sentence', async () => {
    await desk.press('Copy to a new draft');
    await desk.says('Protocol being written');
    await desk.says('Nothing differs.');
    await desk.says(/What has no button here is changed in the file/);
    await openByKeyboard(atLeast);
    await typeInto(/^weeks/, '2 1/2');
    await desk.says('“2 1/2” is no whole number.');
    expect(await desk.page.getByRole('dialog').getByLabel('weeks').inputValue()).toBe('2 1/2');
    expect(await desk.button('Take this value').isDisabled()).toBe(true);
    await desk.lookAt('wrong value');
    // What is typed is not lost to Escape.
    await desk.page.keyboard.press('Escape');
    expect(await desk.page.getByRole('dialog').getByLabel('weeks').inputValue()).toBe('2 1/2');
    await desk.page.keyboard.press('Control+A');
    await desk.page.keyboard.press('Delete');
    await desk.says('Fill in at least one of these fields.');
    await desk.page.keyboard.type('3');
    await desk.says(/it still says that it was read in this source/);
  });

  it('takes a value with a source and a comment of its own, by keyboard', async () => {
    await desk.tabTo(/Source/, 10);
    await desk.page.keyboard.press('Enter');
    await desk.page.getByRole('option', { name: /^another source/ }).waitFor();
    // As fast as fingers, so that the letters are taken for one name.
    await desk.page.keyboard.type('another source', { delay: 40 });
    await desk.page.keyboard.press('Enter');
    await desk.says('The source needs a title.');
    await typeInto(/^Title/, 'Meeting of the medical team, 14 May 2026 (invented)');
    await desk.tabTo(/read in the source/, 10);
    for (let i = 0; i < 3; i += 1) await desk.page.keyboard.press('ArrowDown');
    await typeInto(/^Note/, 'Every 3 weeks while the ward is small.');
    await desk.saysNot(/it still says that it was read in this source/);
    await desk.lookAt('value with its source');
    await pressByKeyboard(/^Take this value/);
    await desk.page.getByRole('dialog').waitFor({ state: 'detached' });
    await desk.says('3 weeks after the one before');
    // The hands are where they were, in a page of many screens.
    await expect.poll(() => desk.focused()).toMatch(/^Change: Core vaccine: .*At least 3 weeks/);
  });

  it('is not laid down while a dose would be late before it may be given', async () => {
    await desk.says(/“Late from” \(2 weeks and 1 day\) is shorter than “At least” \(3 weeks\)/);
    expect(await desk.button('File this version to be signed').isDisabled()).toBe(true);
    await desk.lookAt('draft with limits out of order');
    await openByKeyboard(lateFrom);
    await typeInto(/^weeks/, '3');
    await pressByKeyboard(/^Take this value/);
    await desk.page.getByRole('dialog').waitFor({ state: 'detached' });
    await desk.saysNot(/is shorter than/);
    // The copy stays on the device over a closed page.
    await desk.page.reload();
    await desk.says('3 weeks after the one before');
    await desk.press('File this version to be signed');
    await desk.says('Protocol, version 2: signature');
  });

  it('shows beside the signed one what differs, and from which source it departs', async () => {
    await desk.page.getByRole('link', { name: 'Compare with the signed version' }).click();
    await desk.says(/^2 of \d+ values differ\.$/);
    const rows = desk.page.locator('main tbody tr');
    expect(await rows.count()).toBe(2);
    const first = await rows.first().textContent();
    for (const words of ['dose 1: At least', '2 weeks after', '3 weeks after', `departs from: ${published}`]) {
      expect(first).toContain(words);
    }
    expect(first).toContain('Meeting of the medical team, 14 May 2026 (invented)');
    expect(first).toContain('Every 3 weeks while the ward is small.');
    await desk.lookAt('compared');
    await desk.choose('every value');
    await expect.poll(() => rows.count()).toBeGreaterThan(100);
    await desk.page.goBack();
  });

  it('shows by name whom it moves, as the due list bears out, before it is signed', async () => {
    await desk.says('What changes for the animals here today');
    const row = desk.page.getByRole('table', { name: 'What would change, by treatment' }).getByRole('row').nth(1);
    const cells = await row.getByRole('cell').allInnerTexts();
    // The name of the treatment is the header of the row.
    const [newlyDue, noLonger, moved] = cells.slice(-4);
    expect(newlyDue?.trim()).toBe('');
    const names = (text: string): string[] => text.split(',').map((one) => one.trim());
    told.noLonger = names((noLonger ?? '').trim().split('\n').at(-1) ?? '');
    const lines = (moved ?? '').split('\n').filter((line) => line.includes('→'));
    for (const line of lines) {
      const [, to, who] = /→ (\d+ \w+ \d{4}): (.*)$/.exec(line) ?? [];
      for (const name of names(who ?? '')) told.moved.set(name, to ?? '');
    }
    expect(noLonger).toMatch(new RegExp(`^\\D*${told.noLonger.length}\\b`));
    expect(moved).toMatch(new RegExp(`^\\D*${told.moved.size}\\b`));
    await desk.says(new RegExp(`${told.noLonger.length + told.moved.size} dates or states would change`));
    // Against the list as it stood: what was due is due no longer, the rest is one week later.
    for (const name of told.noLonger) expect(before.get(name)?.state, name).toMatch(/due|overdue/);
    for (const [name, to] of told.moved) {
      const day = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: 'UTC' }).format(
        new Date(`${plusDays(before.get(name)?.due ?? today, 7)}T00:00:00Z`),
      );
      expect(to, name).toBe(day);
    }
    await desk.lookAt('before signing');
    await phone.open('/documents/protocol/sign/2');
    await phone.says('Signing takes a member of the medical team with a licence on record.');
    expect(await phone.button('Sign').count()).toBe(0);
    await phone.lookAt('sign-off page of a volunteer');
  });

  it('is signed under a licence, and moves the days of the due list', async () => {
    expect(await desk.button('Sign').isDisabled()).toBe(true);
    await desk.says(/You sign as Dr Petra Vellum, licence INVENTED-0001/);
    await desk.type('Statement', 'Read and agreed for this ward (invented).');
    await desk.choose('I have read this version in full');
    await desk.press('Sign');
    await desk.says('Version 2 is signed and in force.');
    const after = await coreVaccineDue();
    const changed = [...after].filter(([name, { due, state }]) => {
      const was = before.get(name);
      return was?.due !== due || was.state !== state;
    });
    expect(changed.map(([name]) => name).sort()).toEqual([...told.noLonger, ...told.moved.keys()].sort());
    for (const [name, { due }] of changed) expect(due, name).toBe(plusDays(before.get(name)?.due ?? '', 7));
    await desk.page
      .getByRole('link', { name: told.noLonger[0] ?? '', exact: true })
      .first()
      .click();
    await desk.says(/By the signed protocol: .*, version 2\./);
    const next = desk.page.getByRole('row', { name: /^Core vaccine/ }).first();
    await next.getByText('How this date came about').click();
    await next
      .getByText(/3 weeks after/)
      .first()
      .waitFor();
    await next
      .getByText(/Meeting of the medical team/)
      .first()
      .waitFor();
    await desk.lookAt('animal after signing');
    await phone.open('/documents');
    await phone.says('version 2');
    await phone.says(/licence INVENTED-0001 .*, on 14 May 2026\. “Read and agreed for this ward \(invented\)\.”/);
  });

  it('shows one animal on a line of time, and what would be if something were so, by keyboard', async () => {
    await desk.tabTo(/, .*\. /, 120);
    const line = desk.page.locator('.tl-told').first();
    const said = await line.textContent();
    await desk.page.keyboard.press('ArrowRight');
    await expect.poll(() => line.textContent()).not.toBe(said);
    await desk.page
      .getByText('The time line as a table')
      .or(desk.page.getByText('Time line, as a table'))
      .first()
      .click();
    await desk.lookAt('time line as a table');
    await desk.tabTo(/^Pretend something/, 120);
    await desk.page.keyboard.press('Enter');
    await desk.says(/Only pretended: nothing you enter here is recorded/);
    await desk.page.getByLabel('Suppose it is').focus();
    await desk.page.keyboard.type('06202026');
    await desk.says(/would stand otherwise on 20 June 2026/);
    await typeInto(/^Suppose it weighs/, '900');
    await desk.tabTo(/Suppose it was given/, 10);
    await desk.page.keyboard.press('Enter');
    await desk.page.getByRole('option').first().waitFor();
    await desk.page.keyboard.press('ArrowDown');
    await desk.page.keyboard.press('Enter');
    await desk.says('Given on');
    await desk.lookAt('what if');
    await pressByKeyboard(/^Stop pretending/);
    await desk.says(/what would be due then stands here/);
  });

  it('goes out as a file and comes back the same; a broken file says what is wrong with it', async () => {
    await desk.open('/documents');
    const waiting = desk.page.waitForEvent('download');
    await desk.press('Save as a file');
    const download = await waiting;
    expect(download.suggestedFilename()).toBe('protocol-starter-2.json');
    const file = join(folder, 'protocol-starter-2.json');
    await download.saveAs(file);
    const text = readFileSync(file, 'utf8');
    const field = desk.page.getByLabel('Read from a file').and(desk.page.locator('input'));

    const broken = JSON.parse(text);
    const kitten = broken.schedules.find((one: { id: string }) => one.id === 'core-vaccine').series[0].targets[0];
    kitten.intervals[0].minimum.span.weeks = 'three';
    kitten.intervals[0].minimum.source = 'nowhere';
    const bad = join(folder, 'broken.json');
    writeFileSync(bad, JSON.stringify(broken));
    await field.setInputFiles(bad);
    await desk.says(/Nothing was taken from the file/);
    await desk.says(
      /At schedules › core-vaccine › series › kitten › targets › until-grown › intervals › 1 › minimum › span › weeks:/,
    );
    await desk.lookAt('broken file');
    writeFileSync(bad, text.replace('"minimum"', '"minimun"'));
    await field.setInputFiles(bad);
    await desk.says(/minimun: the document has no such field/);
    writeFileSync(bad, '{"id": ');
    await field.setInputFiles(bad);
    await desk.says(/cannot be read as JSON/);

    await field.setInputFiles(file);
    await desk.says('Protocol being written');
    await desk.says('Nothing differs.');
    const copy = await desk.page.evaluate(() => localStorage.getItem('roundhand-protocol-copy'));
    // Its number is taken here, so the copy gets the next one; all else is as it was.
    expect(JSON.parse(copy ?? '')).toEqual({ ...JSON.parse(text), version: '3' });
    await desk.press('Discard this copy');
    await desk.page.getByRole('dialog').getByRole('button', { name: 'Discard this copy' }).click();
    await desk.says('version 2');
  });

  it('takes a formulary from a file: what differs by place and source, laid down, and signed only once it is confirmed', async () => {
    await desk.open('/documents');
    await desk.page.getByRole('tab', { name: 'Formulary' }).click();
    const waiting = desk.page.waitForEvent('download');
    await desk.press('Save as a file');
    const file = join(folder, 'formulary.json');
    await (await waiting).saveAs(file);
    const field = desk.page.getByLabel('Read from a file').and(desk.page.locator('input'));
    const formulary = JSON.parse(readFileSync(file, 'utf8'));
    const wormer = formulary.products.find((one: { id: string }) => one.id === 'pyrantel-50');
    wormer.tolerence = '7';
    writeFileSync(file, JSON.stringify(formulary));
    await field.setInputFiles(file);
    await desk.says(/products › pyrantel-50 › tolerence: the document has no such field/);

    delete wormer.tolerence;
    wormer.tolerancePercent = '7';
    writeFileSync(file, JSON.stringify(formulary));
    await field.setInputFiles(file);
    await desk.says(/^One value differs from the signed version/);
    const row = desk.page.getByRole('row', { name: /pyrantel suspension.*tolerancePercent/ });
    expect((await row.textContent())?.replace(/\s+/g, ' ')).toMatch(/107departs from: Infectious Disease Management/);
    await desk.lookAt('a formulary from a file');
    await desk.press('File as a draft');
    await desk.page.getByRole('dialog').waitFor({ state: 'detached' });
    await desk.page.getByLabel('Version').first().click();
    await desk.page.getByRole('option', { name: /of the demo 2\b.*waits for a signature/ }).click();
    await desk.press('Sign');
    await desk.says(/^One value differs from the signed version/);
    await desk.choose(/I have read/);
    await desk.says(/from memory and not confirmed yet/);
    await desk.lookAt('signing a formulary');
  });

  it('looked at every page of it', () => {
    expect(desk.seen.length + phone.seen.length).toBeGreaterThanOrEqual(12);
  });
});
