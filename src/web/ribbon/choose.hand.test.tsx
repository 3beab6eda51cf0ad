import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../test/support/at-the-cage.js';
import { Held, onPage } from '../../../test/support/on-page.js';
import { entered, roundLog } from '../../../test/support/round-log.js';
import { settingsOf } from '../../log/plan/settings.js';
import { say } from '../../words/say.js';
import { ChooseSettings, ChooseShift } from './choose.js';
import { RoundClock } from './round-clock.js';
import type { Choices } from './use-round-plan.js';

type Own = Omit<Choices, 'change'>;
const begin: Own = { teams: 1, endsAt: '', ownTeam: [], settings: settingsOf({ rounds: new Map() } as never) };
const sections = ['Nursery', 'Quarantine'].map((name) => ({ id: name, name })) as never;
const option = (name: string) => page.getByText(name, { exact: true });

/** The choices of a plan, kept as the page keeps them. */
function choices(draw: (choices: Choices) => React.ReactNode) {
  const heard = vi.fn();
  onPage(
    <Held<Own> begin={begin} heard={heard}>
      {(own, change) => draw({ ...own, change: (by) => change({ ...own, ...by }) })}
    </Held>,
  );
  return () => heard.mock.lastCall?.[0] as Own;
}

describe('a shift', () => {
  const ends = page.getByRole('textbox', { name: say('ribbon.ends') });

  it('whose end is no time says so and keeps what was typed; an empty end is none', async () => {
    const last = choices((own) => <ChooseShift choices={own} sections={sections} />);
    await ends.fill('25:00');
    await expect.element(ends).toHaveAttribute('aria-invalid', 'true');
    await expect.element(ends).toHaveAccessibleDescription(new RegExp(say('parts.time-wrong')));
    await expect.element(ends).toHaveValue('25:00');
    await ends.fill('17:30');
    await expect.element(ends).not.toHaveAttribute('aria-invalid', 'true');
    expect(last().endsAt).toBe('17:30');
    await ends.fill('');
    await expect.element(ends).not.toHaveAttribute('aria-invalid', 'true');
  });

  it('asks which sections have a team of their own only where there is a second team', async () => {
    const last = choices((own) => <ChooseShift choices={own} sections={sections} />);
    await expect.element(ends).toBeVisible();
    await expect.element(option('Quarantine')).not.toBeInTheDocument();
    await option('2').click();
    await option('Quarantine').click();
    expect(last()).toMatchObject({ teams: 2, ownTeam: ['Quarantine'] });
    await option('1').click();
    await expect.element(option('Quarantine')).not.toBeInTheDocument();
  });
});

describe('the settings of a plan', () => {
  it('each changes itself and no other', async () => {
    const last = choices((own) => <ChooseSettings choices={own} planned={{ advice: null } as never} unit={30} />);
    const group = page.getByRole('radiogroup', { name: say('ribbon.setting.put-back') });
    await group.getByText(say('ribbon.setting.yes')).click();
    expect(last().settings).toEqual({ ...begin.settings, putBackAllowed: true });
    await page
      .getByRole('radiogroup', { name: say('ribbon.setting.limit') })
      .getByText(/^1\b/)
      .first()
      .click();
    expect(last().settings).toEqual({ ...begin.settings, putBackAllowed: true, runningLimit: 1 });
  });
});

describe('the clock of a running round', () => {
  it('a partner who is away for five minutes is back at that time, or before with one press', async () => {
    const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
    entered(log);
    const { written } = await atTheCage(log, ({ around }) => <RoundClock view={around.view} />);
    const five = page.getByRole('button', { name: say('ribbon.setting.minutes', { minutes: 5 }), exact: true });
    const back = page.getByRole('button', { name: say('ribbon.away.back'), exact: true });
    await five.click();
    await expect.element(back).toBeVisible();
    await expect.element(page.getByText(/13:45/).first()).toBeVisible();
    await expect.element(back).not.toHaveAttribute('data-held');
    await back.click();
    await expect.element(five).toBeVisible();
    expect(await written()).toEqual([]);
  });
});
