import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { WeighStep } from './weigh-step.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const field = page.getByRole('textbox', { name: new RegExp(say('round.weigh.label')) });
const keep = button(say('round.weigh.keep'));

/** A kitten that weighed 600 g this morning. */
function cage() {
  const log = roundLog({ 'kit-1': ['weighing'] });
  log.one('animal-weighed', 'animal:kit-1', { grams: 600, entered: '600 g' }, when('10:05'));
  const heard = { kept: vi.fn(), skip: vi.fn() };
  const at = atTheCage(log, ({ stop, line }) => (
    <WeighStep stop={stop} line={line} again={false} onSkip={heard.skip} onKept={heard.kept} />
  ));
  return { at, heard };
}

describe('a weight at the cage', () => {
  it('is asked for at once, kept by Enter, and by a second Enter not again', async () => {
    const { at, heard } = cage();
    const { written } = await at;
    await expect.element(field).toHaveFocus();
    await expect.element(keep).toHaveAccessibleDescription(new RegExp(say('round.why.weight')));
    await userEvent.keyboard('612{Enter}{Enter}');
    await expect.poll(() => heard.kept.mock.calls).toEqual([[false]]);
    expect((await written()).map(({ kind, body }) => [kind, (body as { grams: number }).grams])).toEqual([
      ['animal-weighed', 612],
    ]);
    await expect.element(field).toHaveValue('');
  });

  it('that cannot be read is not kept, and stays to be put right', async () => {
    const { at } = cage();
    const { written } = await at;
    await field.fill('6l2');
    await expect.element(field).toHaveAttribute('aria-invalid', 'true');
    await expect.element(keep).toBeDisabled();
    await userEvent.keyboard('{Enter}');
    await expect.element(field).toHaveValue('6l2');
    expect(await written()).toEqual([]);
  });

  it('that does not fit says so beside the button, is kept as doubtful, and can be typed anew first', async () => {
    const { at, heard } = cage();
    const { written } = await at;
    await field.fill('6120');
    await expect.element(page.getByRole('alert')).toBeVisible();
    await expect.element(keep).not.toBeInTheDocument();
    await button(say('round.weigh.typed-wrong')).click();
    await expect.element(field).toHaveValue('');
    await field.fill('900');
    await button(say('round.weigh.keep-and-again')).click();
    await expect.poll(() => heard.kept.mock.calls).toEqual([[true]]);
    expect((await written())[0]?.body).toMatchObject({ grams: 900, doubtful: true });
  });

  it('with two readings waits for the choice, which the hand can reach on the smallest phone', async () => {
    await page.viewport(320, 568);
    const { at } = cage();
    const { written } = await at;
    await field.fill('1,010');
    await expect.element(keep).toBeDisabled();
    const choice = page.getByRole('group').getByRole('button').first();
    expect(choice.element().getBoundingClientRect().height).toBeGreaterThanOrEqual(44);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(320);
    expect(await written()).toEqual([]);
    await page.viewport(390, 844);
  });
});
