import { spawnSync } from 'node:child_process';
import { closeSync, cpSync, fsyncSync, mkdirSync, mkdtempSync, openSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { appends, devices, fill, profile, startUp } from './log/measure.js';
import { inCare, turnsToNextDose } from './log/shelter.js';
import { firstSync } from './log/sync.js';
import { environment, figure, median, reportFor } from './report.js';

/**
 * What does an append cost beside what it writes, and does that grow with the log? `--records N` for another long log.
 * The yardstick is what the append itself wrote (the record and the rows that changed), by prepared statements in one
 * transaction at the same durability, on a copy of the log and in turn with it.
 */
const options = process.argv.slice(2);
const child = options.indexOf('--start');
if (child >= 0) {
  const { ms, rss } = await startUp(options[child + 1] ?? '');
  process.stdout.write(JSON.stringify({ ms, rss }));
  process.exit(0);
}
const asked = options.indexOf('--records');
const long = asked < 0 ? 400_000 : Number(options[asked + 1]);
const short = 2_000;
/** Where a later series of appends begins: at the same point of an animal's weeks as the first. */
const later = inCare * turnsToNextDose * 7;

/** A copy that still waits to be written is written by the first commit, which would then be timed with it. */
function onDisk(folder: string): void {
  for (const name of readdirSync(folder)) {
    const file = openSync(join(folder, name), 'r+');
    fsyncSync(file);
    closeSync(file);
  }
}

const report = reportFor('log', options.includes('--write'));
report.line(`${environment()} Times below are those of the clock on the wall; ratios are within this run.`);
const root = mkdtempSync(join(tmpdir(), 'log-bench-'));
try {
  const folderOf = (name: string): string => {
    const folder = join(root, name);
    mkdirSync(folder, { recursive: true });
    return folder;
  };
  await fill(folderOf('short'), short);
  await fill(folderOf('long'), long);
  const of = (records: number): string => `${records.toLocaleString('en')} records`;

  // First, while the two logs are as long as they are said to be.
  report.heading('### Start: open, look through what is in force, take the first record in');
  const started = (name: string): { ms: number; rss: number } => {
    const runs = [0, 1, 2].map((turn) => {
      const folder = join(root, `${name}-${turn}`);
      cpSync(folderOf(name), folder, { recursive: true });
      onDisk(folder);
      const { stdout } = spawnSync(process.execPath, [process.argv[1] ?? '', '--start', folder], { encoding: 'utf8' });
      rmSync(folder, { recursive: true });
      return JSON.parse(stdout) as { ms: number; rss: number };
    });
    return { ms: median(runs.map(({ ms }) => ms)), rss: median(runs.map(({ rss }) => rss)) };
  };
  const [near, away] = [started('short'), started('long')];
  report.table(
    ['log', 'ms', 'memory of the process, MB'],
    [
      [of(short), figure(near.ms, 0), figure(near.rss, 0)],
      [of(long), figure(away.ms, 0), figure(away.rss, 0)],
    ],
  );
  report.goal('time of the start, long over short', away.ms / near.ms, 1.5);
  report.goal('memory after the start, long over short', away.rss / near.rss, 1.5);

  report.heading('### First sync of a device, without the index of chips, and the index');
  const [few, many] = [await firstSync(folderOf('short')), await firstSync(folderOf('long'))];
  report.table(
    [
      'log',
      'records',
      'bytes',
      'bytes on the wire',
      'ms, least of 7',
      'chips in the index',
      'bytes a chip on the wire',
    ],
    (
      [
        [short, few],
        [long, many],
      ] as const
    ).map(([records, synced]) => [
      of(records),
      synced.records,
      synced.bytes,
      synced.wireBytes,
      figure(synced.ms, 0),
      synced.chips,
      figure(synced.chipWireBytes / synced.chips, 1),
    ]),
  );
  report.goal('records of the first sync, long over short', many.records / few.records, 1);
  report.goal('bytes of the first sync, long over short', many.bytes / few.bytes, 1);
  report.goal('time of the first sync, long over short', many.ms / few.ms, 1.3);
  report.goal('bytes a chip of the index on the wire', many.chipWireBytes / many.chips, 40);

  report.heading('### One append, and what it writes by itself');
  const one = await appends(folderOf('short'), folderOf('short-copy'), 400, 1, 0);
  const far = await appends(folderOf('long'), folderOf('long-copy'), 400, 1, 0);
  const oneAgain = await appends(folderOf('short'), folderOf('short-copy-2'), 400, 1, later);
  const short_ms = median([one.append_ms, oneAgain.append_ms]);
  const batch = await appends(folderOf('short'), folderOf('short-copy-3'), 12, 1000, 2 * later);
  report.table(
    ['append', 'ms, median', 'yardstick, ms', 'share of it', 'statements'],
    (
      [
        [`one, among ${of(short)}`, one],
        [`one, among ${of(long)}`, far],
        [`one, among ${of(short)}, again`, oneAgain],
        [`1,000 together, among ${of(short)}`, batch],
      ] as const
    ).map(([name, { append_ms, yardstick_ms, statements }]) => [
      name,
      figure(append_ms),
      figure(yardstick_ms),
      `${figure((100 * yardstick_ms) / append_ms, 1)} %`,
      figure(statements),
    ]),
  );
  report.goal('one append over its yardstick', one.append_ms / one.yardstick_ms, 2.5);
  report.goal('1,000 together over their yardstick', batch.append_ms / batch.yardstick_ms, 4);
  report.goal(`one append among ${of(long)} over one among ${of(short)}`, far.append_ms / short_ms, 1.3);

  report.heading('### Where the time of an append goes');
  report.table(
    ['part', 'ms, median'],
    (await profile(folderOf('short'))).map(([name, ms]) => [name, figure(ms)]),
  );

  report.heading('### 100 devices, a record a second each');
  const waited = [...(await devices(folderOf('long'), 100, 10))].sort((a, b) => a - b);
  const p = (share: number): number => waited[Math.min(waited.length - 1, Math.floor(share * waited.length))] ?? 0;
  report.table(
    ['records', 'errors', 'ms, median', 'ms, p99', 'ms, largest'],
    [[waited.length, 0, figure(p(0.5)), figure(p(0.99)), figure(p(1))]],
  );
  report.goal('p99 over the yardstick', p(0.99) / far.yardstick_ms, 20);
} finally {
  rmSync(root, { recursive: true, force: true });
}
process.exitCode = report.end() ? 0 : 1;
