import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commandLine, expectSentence } from './support/command-line.js';

const { folder, there, run, on, ownCopy, records } = commandLine();

describe('prove and check-proof', () => {
  test('show to somebody without the records that one of them is there (Verifies: HEAD-R3)', async () => {
    const data = ownCopy();
    const lines = await records(data);
    const { id } = JSON.parse(lines[10] ?? '') as { id: string };
    const proved = await on(data, 'prove', id);
    expect([proved.code, proved.err]).toEqual([0, '']);
    const { head } = JSON.parse(proved.out) as { head: { root: string; key: string; size: number } };
    expect(head.size).toBe(lines.length);
    const checked = await run(['check-proof', '-', '--key', head.key, '--root', head.root.toUpperCase()], proved.out);
    expect([checked.code, checked.err]).toEqual([0, '']);
    expect(checked.out).toContain(`place 11 of the ${lines.length} records`);
    // The paper of the morning, and the log of the evening.
    const since = await on(data, 'prove', '--since', '10', '--size', String(lines.length));
    writeFileSync(join(folder, 'since.json'), since.out);
    expect((await run(['check-proof', join(folder, 'since.json')])).out).toContain(
      'The first 10 records are the beginning',
    );
    const forged = proved.out.replace('"by":"', '"by":"x');
    expectSentence(await run(['check-proof', '-'], forged), 1, 'not in the log that this head stands for');
    expectSentence(await run(['check-proof', '-', '--key', '00'], proved.out), 1, 'signed by another key');
    expectSentence(await run(['check-proof', '-', '--root', '00'], proved.out), 1, 'has another root');
    expectSentence(await run(['check-proof', '-'], '{}'), 1, 'no proof');
    expectSentence(await run(['check-proof', join(folder, 'none')]), 1, 'cannot be read');
    expect((await on(data, 'verify')).out).toContain('1 head signed so far');
  });

  test('say what is asked wrongly or not there', async () => {
    expectSentence(await on(there.demo, 'prove'), 2, 'not both');
    expectSentence(await on(there.demo, 'prove', 'x', '--since', '1'), 2, 'not both');
    expectSentence(await on(there.demo, 'prove', '--since', 'a'), 2, 'no number of records');
    expectSentence(await on(there.demo, 'prove', 'x', '--size', '7'), 1, 'No head was signed for 7 records');
  });
});

describe('restore', () => {
  test('makes the same log of a whole export, and writes over nothing (Verifies: HEAD-R5)', async () => {
    const file = join(folder, 'whole.jsonl');
    expect((await on(there.demo, 'export', '--out', file)).code).toBe(0);
    const to = join(folder, 'put-back');
    const made = await run(['restore', '--from', file, '--to', to]);
    expect([made.code, made.err]).toEqual([0, '']);
    expect(made.out).toMatch(/records put back in .*; the last one came in on .*\d\d:\d\d/);
    expect(await records(to)).toEqual(await records(there.demo));
    expect((await on(to, 'verify')).code).toBe(0);
    expectSentence(await run(['restore', '--from', file, '--to', to]), 1, 'were left alone');
    mkdirSync(join(folder, 'damaged'));
    writeFileSync(file, readFileSync(file, 'utf8').replace('"zone":"', '"zone":"x'));
    expectSentence(
      await run(['restore', '--from', file, '--to', join(folder, 'damaged')]),
      1,
      'record 1 is not there or not as',
    );
    expectSentence(await run(['restore', '--from', join(folder, 'none'), '--to', to]), 1, 'There is no file');
    expectSentence(await run(['restore', '--to', to]), 2, 'Say with --from');
  });
});
