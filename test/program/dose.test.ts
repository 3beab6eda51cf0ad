import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const main = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

interface Answer {
  readonly stopped: boolean;
  readonly ml: string | null;
  readonly gates: readonly { readonly code: string; readonly why: { readonly words: string } }[];
}

/** The built program's answer to one line, asked about a day so many days after today. */
function dose(line: Record<string, unknown>, daysAhead = 0): Answer {
  const date = new Date(Date.now() + daysAhead * 86_400_000).toISOString().slice(0, 10);
  const { stdout, stderr } = spawnSync(process.execPath, [main, 'dose', '--date', date], {
    input: `${JSON.stringify(line)}\n`,
    encoding: 'utf8',
    env: { ...process.env, TZ: 'UTC' },
  });
  expect(stderr).toBe('');
  return JSON.parse(stdout) as Answer;
}
const codes = ({ gates }: Answer): string[] => gates.map((one) => one.code);

/** What the `dose` calculator let through when it was tried with invented animals. */
describe('dose on the command line', () => {
  test('asks about a weight that no cat of the age has (Verifies: DOSE-R45)', () => {
    for (const weight of ['9.5 kg', '2 kg']) {
      const answer = dose({ weight, product: 'pyrantel-50', age_days: 56 });
      expect(answer.stopped).toBe(true);
      expect(answer.gates.find((one) => one.code === 'weight-doubtful')?.why.words).toMatch(/8\sweeks/);
    }
  });
  test('a later day makes the hours since the weighing longer (Verifies: DOSE-R45)', () => {
    const line = { weight: '900 g', product: 'pyrantel-50', age_days: 60, weighed_hours_ago: 1 };
    expect(codes(dose(line))).not.toContain('weight-stale');
    expect(codes(dose(line, 20))).toContain('weight-stale');
    expect(codes(dose(line, -200))).not.toContain('weight-stale');
  });
  test('mirtazapine on 500 g and saline give no go-ahead (Verifies: DOSE-R36, DOSE-R42)', () => {
    const mirtazapine = dose({ weight: '500 g', product: 'mirtazapine-ointment-20', age_days: 70 });
    expect(codes(mirtazapine)).toContain('outside-band');
    // Verifies: DOSE-R62
    expect(mirtazapine).toMatchObject({ stopped: true, mg: null, ml: null, drawn_ml: null, mark: null, trace: [] });
    const saline = dose({ weight: '500 g', product: 'saline-0-9', age_days: 70 });
    expect(saline).toMatchObject({ ml: null, stopped: true });
    expect(saline.gates.find((one) => one.code === 'limit-of-place')?.why.words).toMatch(/at most 5\smL in one place/);
  });
  test('what holds moxidectin is not said to hold eprinomectin (Verifies: DOSE-R24)', () => {
    const given = [{ product: 'eprinomectin-praziquantel', hours_ago: 120 }];
    const answer = dose({ weight: '3 kg', product: 'imidacloprid-moxidectin-cat', age_days: 400, given });
    const { words = '' } = answer.gates.find((one) => one.code === 'ingredient-too-soon')?.why ?? {};
    expect(words).toContain('holds moxidectin');
    expect(words).not.toContain('holds eprinomectin');
  });
});
