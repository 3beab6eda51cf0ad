import { chmodSync, mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { commandLine, expectSentence } from './support/command-line.js';

const { folder, there, run, on, startProgram, records } = commandLine();

const place = (name: string): string => {
  mkdirSync(join(folder, name));
  return join(folder, name);
};

test('the server makes copies by itself, and one is put back as it was (Verifies: COPY-R1, COPY-R4)', async () => {
  const copies = place('copies');
  const server = await startProgram(['--data', there.demo, '--port', '0', '--copies', copies]);
  await expect.poll(() => readdirSync(copies).filter((name) => name.endsWith('.tar'))).toHaveLength(1);
  const health = (await (await fetch(`${server.url}/api/health`)).json()) as { copied: unknown; told: unknown };
  expect(health).toMatchObject({ copied: { failed: false }, told: [] });
  expect(await server.stop()).toMatchObject({ code: 0, err: '' });
  const [name = ''] = readdirSync(copies);
  const to = join(folder, 'put-back');
  const made = await run(['restore', '--from', join(copies, name), '--to', to]);
  expect([made.code, made.err]).toEqual([0, '']);
  expect(made.out).toMatch(/the last one came in on/);
  expect(await records(to)).toEqual(await records(there.demo));
  expectSentence(await run(['restore', '--from', join(copies, name), '--to', to]), 1, 'were left alone');
});

test('records, copies and exports are for the account that made them, whatever it lets others read else', async () => {
  const copies = place('rights');
  const open = process.umask(0o022);
  const made = await on(there.demo, 'copy', '--out', copies).finally(() => process.umask(open));
  expect([made.code, made.err]).toEqual([0, '']);
  const [name = ''] = readdirSync(copies);
  const to = join(folder, 'rights-back');
  expect(await run(['restore', '--from', join(copies, name), '--to', to])).toMatchObject({ code: 0 });
  const out = join(folder, 'rights.jsonl');
  expect(await on(there.demo, 'export', 'records', '--out', out)).toMatchObject({ code: 0 });
  for (const file of [join(copies, name), join(to, 'roundhand.sqlite'), out]) {
    expect(statSync(file).mode & 0o077, file).toBe(0);
  }
});

test('a copy that cannot be made is told, and the server goes on (Verifies: COPY-R4)', async () => {
  const server = await startProgram(['--data', there.demo, '--port', '0', '--copies', join(folder, 'no-disk')]);
  const told = async (): Promise<string> =>
    ((await (await fetch(`${server.url}/api/health`)).json()) as { told: string[] }).told.join(' ');
  await expect.poll(told).toContain('There is no copy of the records in the second place');
  const { code, err } = await server.stop();
  expect([code, err.match(/the disk may not be plugged in/g)?.length]).toEqual([0, 1]);
});

test('one is made and sealed by hand, and opens with the passphrase alone (Verifies: COPY-R2)', async () => {
  const copies = place('sealed');
  const passphrase = join(folder, 'passphrase');
  writeFileSync(passphrase, 'seven cats in the laundry\n', { mode: 0o600 });
  const made = await on(there.demo, 'copy', '--out', copies, '--passphrase-file', passphrase);
  expect([made.code, made.err]).toEqual([0, '']);
  const [name = ''] = readdirSync(copies);
  expect(name).toMatch(/^roundhand-.*\.tar\.age$/);
  const from = join(copies, name);
  expectSentence(await run(['restore', '--from', from, '--to', join(folder, 'opened')]), 1, 'is sealed');
  const opened = await run([
    'restore',
    '--from',
    from,
    '--to',
    join(folder, 'opened'),
    '--passphrase-file',
    passphrase,
  ]);
  expect([opened.code, opened.err]).toEqual([0, '']);
  expect(await records(join(folder, 'opened'))).toEqual(await records(there.demo));
  writeFileSync(passphrase, 'short\n');
  expectSentence(await on(there.demo, 'copy', '--out', copies, '--passphrase-file', passphrase), 1, 'fewer than 15');
  chmodSync(passphrase, 0o644);
  expectSentence(
    await on(there.demo, 'copy', '--out', copies, '--passphrase-file', passphrase),
    1,
    'can be read by others',
  );
});

test('what is asked wrongly is said', async () => {
  expectSentence(await on(there.demo, 'copy'), 2, 'Say with --out');
  expectSentence(await on(there.demo, 'copy', '--out', join(folder, 'none')), 1, 'is not there');
  expectSentence(await run(['start', '--copies-every', '3']), 2, 'Say with --copies');
  expectSentence(await run(['start', '--copies', folder, '--copies-every', '0']), 2, 'not a number of hours');
});
