import { expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../test/support/at-the-cage.js';
import { roundLog } from '../../../test/support/round-log.js';
import { SignState } from './sign-state.js';

it('a sign that has to hang is said to hang with one press, once, and nothing asks for it any more', async () => {
  const { written } = await atTheCage(roundLog({ 'kit-1': ['roundworm'] }), ({ stop }) => (
    <SignState animal={stop.animal} apart />
  ));
  const hang = page.getByRole('button');
  await expect.element(hang).toBeVisible();
  await hang.dblClick();
  await expect.element(hang).not.toBeInTheDocument();
  expect((await written()).map(({ kind, body }) => [kind, body])).toMatchObject([
    ['sign-set', { hangs: true, kennel: 'N1' }],
  ]);
  await expect.element(page.getByText(/N1/)).toBeVisible();
});
