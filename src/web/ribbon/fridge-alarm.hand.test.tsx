import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../test/support/round-log.js';
import { starterKit as kit } from '../../../test/support/starter-kit.js';
import { say } from '../../words/say.js';
import { FridgeAlarm } from './fridge-alarm.js';

const call = (key: string) =>
  ({ key, kit, missing: 2, at_ms: Date.parse(when('13:45')), startsAt: when('14:15'), round: null }) as never;
const heard = page.getByRole('button', { name: say('ribbon.fridge.heard'), exact: true });
const cage = (key: string) =>
  atTheCage(roundLog({ 'kit-1': ['roundworm'] }), () => <FridgeAlarm calls={[call(key)]} />);

describe('tests that have to leave the cold', () => {
  it('ring when it is time, until somebody has heard it, and are said until they are out', async () => {
    const { itIs } = await cage('one');
    await expect.element(page.getByText(say('ribbon.fridge.coming', { at: { instant: when('13:45') } }))).toBeVisible();
    expect(page.getByRole('alert').elements()).toEqual([]);
    itIs('13:46');
    const alarm = page.getByRole('alert');
    await expect.element(alarm).toBeVisible();
    await heard.click();
    await expect.element(alarm).not.toBeInTheDocument();
    await expect.element(heard).not.toBeInTheDocument();
    await expect.element(page.getByText(say('ribbon.fridge.quiet'))).toBeVisible();
  });

  it('another call rings although one was heard', async () => {
    const { itIs } = await cage('two');
    itIs('13:46');
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(heard).toBeVisible();
  });
});
