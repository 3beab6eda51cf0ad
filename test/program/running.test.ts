import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { commandLine } from './support/command-line.js';

const { folder, there, run, on, ownCopy, startProgram } = commandLine();
const unit = readFileSync(new URL('../../deploy/roundhand.service', import.meta.url), 'utf8');

test('the doctor looks at a shelter that is served, and at one whose records were damaged (Verifies: RUN-R1)', async () => {
  const copies = join(folder, 'copies');
  mkdirSync(copies);
  const server = await startProgram(['--data', there.demo, '--port', '0', '--copies', copies]);
  await expect
    .poll(async () => (await on(there.demo, 'doctor', '--copies', copies, '--port', new URL(server.url).port)).out)
    .toContain('The newest copy is of');
  const healthy = await on(there.demo, 'doctor', '--copies', copies, '--port', new URL(server.url).port);
  await server.stop();
  expect(healthy.out).toContain('has nothing to say against itself');
  expect(healthy.out).not.toContain('■ The file');

  const damaged = ownCopy();
  const file = join(damaged, 'roundhand.sqlite');
  const bytes = readFileSync(file);
  bytes.fill(0x5a, 20 * 4096, 40 * 4096);
  writeFileSync(file, bytes);
  const sick = await on(damaged, 'doctor', '--port', '1');
  expect([sick.code, sick.out]).toEqual([1, expect.stringMatching(/■ .*damaged/)]);
  expect(sick.out).toMatch(/restore|backup/);
  const asJson = JSON.parse((await on(damaged, 'doctor', '--port', '1', '--json')).out) as { is: string }[];
  expect(asJson.some(({ is }) => is === 'wrong')).toBe(true);
});

test('what goes wrong inside is one JSON line that names nobody (Verifies: RUN-R2)', async () => {
  const data = ownCopy();
  const server = await startProgram(['--data', data, '--port', '0', '--log', 'info']);
  await fetch(`${server.url}/api/chips?after=Tove%20Margin%0A%7B%22forged%22%3A1%7D`, {
    headers: { authorization: 'Bearer secret-word' },
  });
  rmSync(join(data, 'roundhand.sqlite'));
  await fetch(`${server.url}/api/lots`);
  const { err } = await server.stop();
  const lines = err
    .trimEnd()
    .split('\n')
    .filter((line) => line.startsWith('{'));
  const events = lines.map((line) => JSON.parse(line) as { level: string; time: string; req?: unknown });
  expect(events.find(({ req }) => JSON.stringify(req)?.includes('/api/chips'))?.req).toEqual({
    method: 'GET',
    path: '/api/chips',
  });
  expect(events.some(({ level }) => level === 'error')).toBe(true);
  for (const { time } of events) expect(time).toMatch(/^\d{4}-\d\d-\d\dT[\d:.]+Z$/);
  expect(err).not.toMatch(/Tove|Margin|secret-word|forged/);
});

test('the unit starts the program as it takes its options (Verifies: RUN-R3)', async () => {
  const line = /^ExecStart=\S+ \S+main\.js start (.*)$/m.exec(unit)?.[1]?.split(' ') ?? [];
  expect(line).toContain('--data');
  const help = (await run(['start', '--help'])).out;
  for (const option of line.filter((one) => one.startsWith('--'))) expect(help).toContain(option);
  for (const kept of ['StateDirectoryMode=0700', 'UMask=0077', 'KillSignal=SIGTERM']) expect(unit).toContain(kept);
});

// Where systemd is at hand it reads the unit itself.
const analyze = spawnSync('systemd-analyze', ['--version']).status === 0;
test.skipIf(!analyze)('systemd finds nothing to say about the unit but that the program is not there', () => {
  const file = new URL('../../deploy/roundhand.service', import.meta.url).pathname;
  const { stderr } = spawnSync('systemd-analyze', ['verify', '--man=no', file], { encoding: 'utf8' });
  const about = stderr
    .split('\n')
    .filter((said) => said.includes('roundhand.service') && !said.includes('not executable'));
  expect(about).toEqual([]);
});
