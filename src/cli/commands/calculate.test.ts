import { expect, test } from 'vitest';
import { ok } from '../../core/said.js';
import { answered } from './calculate.js';

test('a fault on one line is its answer, and loses none of the others (Verifies: DOSE-R66)', () => {
  const answers = [1, 2, 3].map((value) =>
    answered((line) => {
      if (line === 2) throw new Error('[DecimalError]');
      return ok(line);
    }, value),
  );
  expect(answers).toMatchObject([{ ok: true }, { ok: false, why: { say: 'cli.calculate.fault' } }, { ok: true }]);
});
