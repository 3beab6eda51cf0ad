import { existsSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commandLine, expectSentence, jsonOf } from './support/command-line.js';

const { folder, run, on, ownCopy, records } = commandLine();
const privateFile = 'people.sqlite';

describe('people, by their own door', () => {
  test('are listed, exported for their owner only, and taken in again; no record changes (Verifies: LOG-R80, LOG-R86)', async () => {
    const data = ownCopy();
    const before = await records(data);
    const listed = await on(data, 'people');
    expect([listed.code, listed.err]).toEqual([0, '']);
    expect(listed.out).toMatch(/Ada Quill {2}ada@inkwell-lane\.example/);
    const file = join(folder, 'people.jsonl');
    const written = await on(data, 'people', 'export', '--out', file);
    expect([written.code, written.err]).toMatchObject([0, expect.stringContaining('8 people with contacts')]);
    expect(statSync(file).mode & 0o077).toBe(0);
    const lines = readFileSync(file, 'utf8');
    expect(lines).toBe((await on(data, 'people', 'export')).out);
    // The records alone, and then the people beside them again.
    rmSync(join(data, privateFile));
    const verified = await on(data, 'verify');
    expect([verified.code, verified.out]).toMatchObject([0, expect.stringContaining('8 of the people in the records')]);
    expect((await on(data, 'export')).out).not.toContain('Ada Quill');
    expect(existsSync(join(data, privateFile))).toBe(false);
    const taken = await run(['people', 'take', '--data', data], `${lines}{"id":"x"}\n{"name":5}\n`);
    expect(taken.code).toBe(1);
    expect(jsonOf(taken.out).map(({ outcome }) => outcome)).toEqual([
      ...Array.from({ length: 8 }, () => 'kept'),
      'nameless',
      'malformed',
    ]);
    expect((await on(data, 'people', 'export')).out).toBe(lines);
    expect(await records(data)).toEqual(before);
    const again = await on(data, 'verify');
    expect([again.code, again.out]).toMatchObject([0, expect.stringMatching(/8 people by name; 0 of the people/)]);
  });

  test('are withdrawn, and erased so that no byte of the name is left (Verifies: LOG-R83)', async () => {
    const data = ownCopy();
    const ada = jsonOf((await on(data, 'people', 'export')).out).find(({ name }) => name === 'Ada Quill')?.id as string;
    expect((await on(data, 'people', 'withdraw', '--person', ada)).code).toBe(0);
    expect((await on(data, 'people')).out).toMatch(/Ada Quill.*name withdrawn/);
    expect(readFileSync(join(data, privateFile), 'latin1')).toContain('Ada Quill');
    expect((await on(data, 'people', 'erase', '--person', ada)).code).toBe(0);
    expect(readFileSync(join(data, privateFile), 'latin1')).not.toMatch(/Ada Quill|ada@inkwell/);
    const back = await run(['people', 'take', '--data', data], `{"id":"${ada}","name":"Ada Quill"}\n`);
    expect([back.code, jsonOf(back.out)[0]?.outcome]).toEqual([1, 'erased']);
    expect((await on(data, 'verify')).out).toContain('1 of the people in the records');
    expectSentence(await on(data, 'people', 'erase'), 2, '--person ID');
    expectSentence(await on(data, 'people', 'erase', '--person', 'nobody'), 2, '“nobody”');
  });
});
