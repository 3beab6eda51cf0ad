import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, roundLog, started } from '../../../../test/support/round-log.js';
import { starterKit as kit } from '../../../../test/support/starter-kit.js';
import { say } from '../../../words/say.js';
import { Reading } from './reading.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const record = button(say('round.read.record'));
const zone = (at: number, name: string) => page.getByRole('group').nth(at).getByRole('button', { name, exact: true });
const marks = kit.zones.map(({ id }) => id);
const at = (id: string): number => (marks as string[]).indexOf(id);

/** A test that was started at 13:41; its window is open from 13:49 to 13:51. */
function cage(time: string, partner: string | null = null) {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  drawn(log, 1, '13:40');
  started(log, 1, '13:41');
  return atTheCage(log, () => <Reading animal="kit-1" run="run-1" />, { at: time, partner });
}

describe('reading a test', () => {
  it('takes nothing before its window', async () => {
    await cage('13:45');
    await expect.element(page.getByText(say('round.read.not-yet'))).toBeVisible();
    await expect.element(record).not.toBeInTheDocument();
    expect(page.getByRole('group').elements()).toEqual([]);
  });

  it('takes what is seen once all zones are answered, the last answer of each, once', async () => {
    const { written } = await cage('13:50');
    await expect.element(record).toBeDisabled();
    await expect.element(record).toHaveAccessibleDescription(new RegExp(say('round.why.zones')));
    await zone(at('control'), 'seen').click();
    await zone(at('antigen'), 'seen').click();
    await zone(at('invalid'), 'not seen').click();
    await expect.element(page.getByText(say('round.result.reactive'), { exact: true }).first()).toBeVisible();
    await zone(at('antigen'), 'not seen').click();
    await expect.element(page.getByText(say('round.result.negative'), { exact: true }).first()).toBeVisible();
    await record.dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({
      kind: 'test-read',
      body: { run: 'run-1', seen: { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' } },
    });
  });

  it('after its window takes nothing that is seen, only that it is not valid', async () => {
    const { written } = await cage('14:10');
    await expect.element(record).not.toBeInTheDocument();
    await button(say('round.read.not-valid')).click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ kind: 'test-read', body: { seen: {} } });
  });

  it('a reactive one waits for the second pair of eyes, and forgets their answer when the marks change', async () => {
    const { written } = await cage('13:50', 'sol');
    await zone(at('control'), 'seen').click();
    await zone(at('antigen'), 'faint').click();
    await zone(at('invalid'), 'not seen').click();
    await expect.element(record).toBeDisabled();
    await expect.element(record).toHaveAccessibleDescription(/Sol/);
    await page.getByText(say('round.read.second', { person: 'Sol' }), { exact: true }).click();
    await expect.element(record).toBeEnabled();
    await zone(at('antigen'), 'seen').click();
    await expect.element(record).toBeDisabled();
    expect(await written()).toEqual([]);
    await page.getByText(say('round.read.second', { person: 'Sol' }), { exact: true }).click();
    await record.click();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ secondReader: 'sol' });
  });

  it('the press counts by the time of the press: a window that has closed since takes nothing', async () => {
    const { written, itIs } = await cage('13:50');
    for (const id of ['control', 'antigen', 'invalid']) {
      await zone(at(id), id === 'control' ? 'seen' : 'not seen').click();
    }
    await expect.element(record).toBeEnabled();
    itIs('14:10');
    (record.element() as HTMLElement).click();
    await expect.element(button(say('round.read.not-valid'))).toBeVisible();
    expect(await written()).toEqual([]);
  });
});
