import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import SqliteDatabase from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { commandLine, expectSentence, jsonOf } from './support/command-line.js';

const files = fileURLToPath(new URL('../import/files/', import.meta.url));
const { folder, there, run, on, ownCopy, records } = commandLine();

describe('record', () => {
  const weighing = (animal: string, grams: number) =>
    JSON.stringify({ kind: 'animal-weighed', subject: `animal:${animal}`, body: { grams, entered: `${grams} g` } });
  const someone = async (data: string) => {
    const kept = (await records(data)).map(
      (line) => JSON.parse(line) as { kind: string; subject: string; body: Record<string, string> },
    );
    const person = kept.find((one) => one.kind === 'person-described' && one.body.role === 'supervisor');
    const animal = kept.find((one) => one.kind === 'animal-taken-in');
    return { name: person?.body.person ?? '', animal: animal?.subject.slice('animal:'.length) ?? '' };
  };
  test('good lines come in, each bad one is one sentence, and the chain stays whole', async () => {
    const data = ownCopy();
    const { name, animal } = await someone(data);
    const before = (await records(data)).length;
    const input = [
      weighing(animal, 901),
      '{"kind":"animal-weighed"',
      weighing(animal, -5),
      '',
      weighing(animal, 902),
    ].join('\n');
    const ended = await run(['record', '--data', data, '--by', name], input);
    expect(ended.code).toBe(1);
    expect(jsonOf(ended.out).map((line) => [line.line, line.outcome])).toEqual([
      [2, 'refused'],
      [3, 'refused'],
      [1, 'stored'],
      [5, 'stored'],
    ]);
    expect(
      ended.err
        .trimEnd()
        .split('\n')
        .map((line) => line.slice(0, 7)),
    ).toEqual(['Line 2:', 'Line 3:']);
    expect(await records(data)).toHaveLength(before + 2);
    expect((await on(data, 'verify')).code).toBe(0);
    const again = await run(['record', '--data', data, '--by', name], weighing(animal, 903));
    const seqs = (await records(data)).slice(-3).map((line) => (JSON.parse(line) as { deviceSeq: number }).deviceSeq);
    expect([again.code, seqs]).toEqual([0, [1, 2, 3]]);
  });
  test('what was exported can be sent again and changes nothing', async () => {
    const data = ownCopy();
    const before = await records(data);
    const ended = await run(['record', '--data', data], before.join('\n'));
    expect(ended.code).toBe(0);
    expect(new Set(jsonOf(ended.out).map((line) => line.outcome))).toEqual(new Set(['already-there']));
    expect(await records(data)).toEqual(before);
  });
  test('records of another shelter or by a stranger are turned away', async () => {
    const data = ownCopy();
    const line = JSON.parse((await records(data)).at(-1) ?? '') as Record<string, unknown>;
    const foreign = [
      { ...line, id: '019d0000-0000-7000-8000-000000000001', shelter: 'elsewhere' },
      { ...line, id: '019d0000-0000-7000-8000-000000000002', by: 'nobody' },
      { ...line, body: { other: true } },
    ];
    const ended = await run(['record', '--data', data], foreign.map((one) => JSON.stringify(one)).join('\n'));
    expect(ended.code).toBe(1);
    expect(jsonOf(ended.out).map((one) => one.outcome)).toEqual(['refused', 'refused', 'refused']);
  });
});

describe('import', () => {
  const file = (name: string) => join(files, name);
  const supervisor = async (data: string) =>
    (await records(data))
      .map((line) => JSON.parse(line) as { kind: string; body: Record<string, string> })
      .find((one) => one.kind === 'person-described' && one.body.role === 'supervisor')?.body.person ?? '';
  test('shows first, records once, and adds nothing the second time', async () => {
    const data = ownCopy();
    const by = await supervisor(data);
    const before = (await records(data)).length;
    const shown = await on(data, 'import', file('city-c-stays.csv'), '--dry-run', '--place', '=Intake');
    expect([shown.code, shown.err]).toEqual([0, '']);
    expect(shown.out).toContain('39 accepted, 0 to look at, 197 turned away (0 of them already here)');
    expect(await records(data)).toHaveLength(before);
    const args = ['import', file('city-c-stays.csv'), '--place', '=Intake', '--by', by, '--data', data];
    const first = await run(args);
    expect([first.code, first.err]).toEqual([0, '']);
    expect(first.out).toContain('Recorded: 39 animals of 236 rows.');
    expect(await records(data)).toHaveLength(before + 40);
    const again = await run(args);
    expect(again.out).toContain('0 accepted, 0 to look at, 236 turned away (39 of them already here)');
    expect(again.out).toContain('There is nothing to record.');
    expect(await records(data)).toHaveLength(before + 40);
    expect((await on(data, 'verify')).code).toBe(0);
  });
  test('without a name nothing is recorded', async () => {
    const data = ownCopy();
    const before = (await records(data)).length;
    const ended = await on(data, 'import', file('windows-1252.csv'));
    expect([ended.code, ended.err.trimEnd().split('\n').length]).toEqual([2, 1]);
    expect(ended.err).toContain('--by NAME');
    expect(await records(data)).toHaveLength(before);
  });
  test('rows to look at only when asked for; a weight without a day carries no dose', async () => {
    const data = ownCopy();
    const by = await supervisor(data);
    const args = ['import', file('semicolon-decimal-comma.csv'), '--by', by, '--data', data];
    expect((await run(args)).out).toContain('There is nothing to record.');
    expect((await run([...args, '--doubtful'])).out).toContain('Recorded: 2 animals of 2 rows.');
    const weights = (await records(data))
      .map((line) => JSON.parse(line) as { kind: string; body: { grams: number; entered: string; doubtful: boolean } })
      .slice(-5)
      .filter((one) => one.kind === 'animal-weighed');
    expect(weights.map(({ body }) => [body.grams, body.entered, body.doubtful])).toEqual([
      [650, '0,65', true],
      [1200, '1,2', true],
    ]);
  });
  test('columns and answers of a person', async () => {
    const table = join(folder, 'own.csv');
    writeFileSync(
      table,
      'Tag;Called;Seen on;Where;Grams\n007;Pip;03/08/2026;Truck;1,234\n008;Moo;04/05/2026;Barn;980\n',
    );
    const asked = await on(
      there.demo,
      'import',
      table,
      '--dry-run',
      '--map',
      'Seen on=arrived',
      '--map',
      'Where=place',
      '--map',
      'Grams=weight',
    );
    expect(asked.out).toContain('Answer with --date-order.');
    expect(asked.out).toContain('--place "Truck=SECTION"');
    const answers = [
      '--map',
      'Seen on=arrived',
      '--map',
      'Where=place',
      '--map',
      'Called=name',
      '--map',
      'Grams=weight',
    ];
    answers.push(
      '--date-order',
      'month-first',
      '--decimal',
      'point',
      '--unit',
      'g',
      '--place',
      'Truck=Intake',
      '--place',
      'Barn=not-here',
    );
    const answered = await on(there.demo, 'import', table, '--dry-run', '--json', ...answers);
    const { rows } = JSON.parse(answered.out) as { rows: Record<string, unknown>[] };
    expect(rows[0]).toMatchObject({
      verdict: 'accepted',
      label: '007',
      weight: { grams: 1234, entered: '1,234' },
      animal: { name: 'Pip', arrivedOn: '2026-03-08', section: expect.stringContaining('intake') as unknown },
    });
    expect(rows[1]).toMatchObject({ verdict: 'refused', animal: null });
    expectSentence(await on(there.demo, 'import', table, '--map', 'Nope=name'), 2, 'no column “Nope”');
    expectSentence(await on(there.demo, 'import', table, '--map', 'Tag=nope'), 2, 'no field “nope”');
    expectSentence(await on(there.demo, 'import', table, '--map', 'Tag'), 2, 'like “Heading=field”');
  });
  test.each([
    ['missing.csv', 'There is no file'],
    ['empty.csv', 'The file is empty.'],
    ['junk.csv', 'not a table of text'],
  ])('%s', async (name, part) => {
    expectSentence(await on(there.demo, 'import', file(name), '--dry-run'), 1, part);
  });
  test('a folder, and a spreadsheet', async () => {
    const sheet = join(folder, 'list.xlsx');
    writeFileSync(sheet, Buffer.from('504b0304140000000800', 'hex'));
    mkdirSync(join(folder, 'list'));
    expectSentence(await on(there.demo, 'import', sheet, '--dry-run'), 1, 'save it as CSV');
    expectSentence(await on(there.demo, 'import', join(folder, 'list'), '--dry-run'), 1, 'is a folder');
  });
  test('an open quotation mark is told with its row, the row before it stays', async () => {
    const { code, out } = await on(there.demo, 'import', file('unclosed-quote.csv'), '--dry-run');
    expect(code).toBe(0);
    expect(out).toContain('1 accepted, 0 to look at, 1 turned away');
    expect(out).toContain('Row 3 (line 3): a quotation mark is opened and never closed');
  });
});

describe('verify', () => {
  test('says which record was changed and which table', async () => {
    const data = ownCopy();
    expect((await on(data, 'verify')).out).toContain('The chain is unbroken');
    const db = new SqliteDatabase(join(data, 'roundhand.sqlite'));
    db.exec(
      `update records set body = replace(body, 'Inkwell', 'Otherwise') where seq = 1; update animals set name = 'Zed' where label = 'D-0101'`,
    );
    db.close();
    const ended = await on(data, 'verify');
    expect(ended.code).toBe(1);
    expect(ended.err).toContain('The chain breaks at record 1');
    expect(ended.err).toContain('The table animals differs');
  });
});

describe('calculators: one line in, one line out', () => {
  test('chip', async () => {
    const { code, out, err } = await run(
      ['chip'],
      '{"chip":"985 112 006 831 826"}\n{"chip":"9.85112E+14"}\nnope\n{"chip":1}\n',
    );
    const [good, power, none, number] = jsonOf(out);
    expect(good).toMatchObject({ code: '985112006831826', class: 'iso' });
    expect([power, none, number].map((line) => (line?.error as { say?: string } | undefined)?.say)).toEqual([
      'chip.power-of-ten',
      'cli.record.no-json',
      'cli.calculate.malformed',
    ]);
    expect([code, err.trimEnd().split('\n').length]).toEqual([1, 3]);
  });
  test('dose: 5 mg per kg of 650 g at 50 mg per mL is 0.065 mL', async () => {
    const { code, out } = await run(['dose'], '{"weight":"650 g","mg_per_kg":"5","strength_mg_per_ml":"50"}');
    expect([code, jsonOf(out)[0]]).toMatchObject([0, { mg: '3.25', ml: '0.065' }]);
  });
  test('predict: sensitivity 0.93, specificity 0.98, prevalence 0.03', async () => {
    const { code, out } = await run(['predict'], '{"sensitivity":0.93,"specificity":0.98,"prevalence":0.03}');
    // 0.93 * 0.03 / (0.93 * 0.03 + 0.02 * 0.97), worked out by hand.
    expect(code).toBe(0);
    expect(jsonOf(out)[0]?.ppv).toBeCloseTo(0.0279 / 0.0473, 12);
  });
  test('forecast: the starter protocol, another day, and an unknown product', async () => {
    const animal = { born: '2026-01-20', arrived_on: '2026-03-01' };
    const lines = [
      animal,
      { ...animal, given: [{ on: '2026-03-02', product: 'no-such' }] },
      { ...animal, on: '2026-03-01', weights: [{ on: '2026-03-02', grams: 700 }] },
    ];
    const { code, out } = await run(
      ['forecast', '--date', '2026-03-15'],
      lines.map((line) => JSON.stringify(line)).join('\n'),
    );
    const [first, unknown, later] = jsonOf(out);
    expect(code).toBe(1);
    expect(first).toMatchObject({ on: '2026-03-15', signed: false });
    expect((first?.items as { schedule: string }[] | undefined)?.map((item) => item.schedule)).toContain(
      'core-vaccine',
    );
    expect(unknown).toMatchObject({ error: { say: 'dose.product-unknown' }, line: 2 });
    expect(later).toMatchObject({ error: { say: 'cli.forecast.after-the-day' }, line: 3 });
    expectSentence(await run(['forecast', '--protocol', 'nowhere.json'], '{}'), 1, 'cannot be read');
  });
});
