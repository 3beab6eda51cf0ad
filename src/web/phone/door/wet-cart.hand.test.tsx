import { expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { entered, roundId, roundLog, when } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { WetTime } from './wet-cart.js';

it('what was wiped on leaving counts down its ten minutes, and nothing is said once it is dry', async () => {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  entered(log);
  log.one('section-left', `round:${roundId}`, { section: 'nursery', cleaned: [] }, when('13:38'));
  const { itIs } = await atTheCage(log, () => <WetTime />, { at: '13:40' });
  const wet = page.getByText(say('round.leave.still-wet', { section: 'Nursery' }));
  await expect.element(wet).toBeVisible();
  await expect.element(page.getByText(/^0?8:00$/)).toBeVisible();
  itIs('13:49');
  await expect.element(wet).not.toBeInTheDocument();
});
