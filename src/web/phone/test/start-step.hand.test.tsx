import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { atRest } from '../../../../test/support/on-page.js';
import { drawn, roundId, roundLog, started, when } from '../../../../test/support/round-log.js';
import { starterKit as kit } from '../../../../test/support/starter-kit.js';
import { say } from '../../../words/say.js';
import { Kits } from './kits.js';
import { ReadAlready } from './read-already.js';
import { StartStep } from './start-step.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const next = button(say('round.start.next'));
const radio = (name: string | RegExp) => page.getByRole('radio', { name });
const dialog = page.getByRole('dialog');

type Log = ReturnType<typeof roundLog>;

/** A box of tests on the shelf; its bottle has the lot of the box. `out`: how many were taken out of the cold, and when. */
function box(log: Log, lotText: string, { pieces = 10, out = '' } = {}): void {
  const of = { is: 'kit', kitType: kit.id, conjugateLot: lotText };
  log.one('lot-received', `lot:${lotText}`, { of, lotText, expires: null, pieces } as never, when('09:00'));
  if (out !== '') log.one('kits-out-of-cold', `lot:${lotText}`, { count: 3, round: roundId } as never, when(out));
}

/** Blood of a kitten that was drawn at 13:38, and a box whose tests are warm. */
function cage(at = '13:40') {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  log.one('animal-weighed', 'animal:kit-1', { grams: 1500, entered: '1500 g' }, when('12:00'));
  box(log, 'K27', { out: '12:30' });
  drawn(log, 1, '13:38');
  return atTheCage(
    log,
    ({ stop, line }) => (line.run?.startedAt == null ? <StartStep stop={stop} line={line} /> : <p>the clock runs</p>),
    { at },
  );
}
const bottle = (lot: string) => say('round.box.bottle-same', { lot });
const choose = (words: string) => page.getByText(words, { exact: true }).click();

/** Through the steps of the kit to the press that starts its clock. */
async function toTheClock(): Promise<void> {
  const last = Math.min(kit.clockStep ?? kit.steps.length, kit.steps.length);
  for (let step = 1; step < last; step += 1) await button(say('round.kit-steps.done')).click();
  for (const [of, count] of [
    ['sample', kit.sampleDrops],
    ['conjugate', kit.conjugateDrops],
  ] as const) {
    const drop = page.getByRole('button', { name: new RegExp(say(`round.drops.${of}`, { count })) });
    for (let tap = 0; tap < count; tap += 1) await drop.click();
  }
  await atRest();
}

describe('from blood to a running clock', () => {
  it('the lots are looked at first, and an impatient thumb starts one clock at the time of its press', async () => {
    const { written, itIs } = await cage();
    await expect.element(next).toBeDisabled();
    await expect.element(next).toHaveAccessibleDescription(new RegExp(say('round.why.box')));
    await choose(bottle('K27'));
    await next.dblClick();
    await toTheClock();
    itIs('13:41');
    await button(say('round.start.pressed')).dblClick();
    await expect.element(page.getByText('the clock runs')).toBeVisible();
    const records = await written();
    expect(records.map(({ kind }) => kind)).toEqual(['test-started']);
    expect(records[0]).toMatchObject({
      happenedAt: when('13:41'),
      body: { run: 'run-1', lot: 'K27', kitLot: 'K27', conjugateLot: 'K27' },
    });
  });

  it('a step back shows the very box that will be recorded, and not the one offered at first', async () => {
    const { written } = await cage();
    await choose(say('round.box.not-listed'));
    await page.getByRole('textbox', { name: say('round.box.kit-lot') }).fill('K99');
    await choose(bottle('K99'));
    await next.click();
    await expect.element(button(say('round.kit-steps.done'))).toBeVisible();
    await atRest();
    await button(say('round.back')).click();
    await expect.element(radio(new RegExp(say('round.box.not-listed')))).toBeChecked();
    await expect.element(page.getByRole('textbox', { name: say('round.box.kit-lot') })).toHaveValue('K99');
    await expect.element(radio(bottle('K99'))).toBeChecked();
    await expect.element(next).toBeEnabled();
    await page.getByText(/^K27/).first().click();
    await expect.element(next).toBeDisabled();
    expect(await written()).toEqual([]);
  });

  it('a bottle of another lot stops it in words, and the right one clears the stop', async () => {
    await cage();
    await choose(say('round.box.bottle-other'));
    await page.getByRole('textbox', { name: say('round.box.bottle-lot') }).fill('K28');
    await expect.element(page.getByRole('alert')).toHaveTextContent('K28');
    await expect.element(next).toBeDisabled();
    await page.getByRole('textbox', { name: say('round.box.bottle-lot') }).fill('k27 ');
    await expect.element(next).toBeEnabled();
  });

  it('blood that has waited too long takes a reason, and one of blanks is none; fresh blood begins without it', async () => {
    const { written } = await cage('13:55');
    await choose(bottle('K27'));
    await expect.element(next).toBeDisabled();
    const why = page.getByRole('textbox', { name: say('round.start.blood-why') });
    await why.fill('  ');
    await expect.element(next).toBeDisabled();
    await why.fill('The first test fell down.');
    await expect.element(next).toBeEnabled();
    await button(say('round.start.draw-again')).click();
    await atRest();
    await button(say('round.draw.usable')).click();
    await expect.element(next).toBeVisible();
    await expect.element(why).not.toBeInTheDocument();
    await expect.element(next).toBeDisabled();
    expect((await written()).map(({ kind }) => kind)).toEqual(['test-abandoned', 'sample-drawn']);
  });

  it('“not done” asks why before anything is written', async () => {
    const { written } = await cage();
    await button(say('round.not-given.open')).click();
    await expect.element(dialog).toBeVisible();
    await dialog.getByRole('button', { name: say('round.back') }).click();
    await expect.element(dialog).not.toBeInTheDocument();
    expect(await written()).toEqual([]);
  });
});

describe('tests out of the cold', () => {
  it('are as many as the counter says, once, and never more than lie in the box', async () => {
    const log = roundLog({ 'kit-1': ['felv-test'], 'kit-2': ['felv-test'] });
    box(log, 'K27', { pieces: 3 });
    const { written } = await atTheCage(log, () => <Kits />);
    const more = page.getByRole('button', { name: `More: ${say('round.kits.how-many')}` });
    await expect.element(button(say('round.kits.take-out', { count: 2 }))).toBeVisible();
    for (let tap = 0; tap < 3; tap += 1) (more.element() as HTMLElement).click();
    await button(say('round.kits.take-out', { count: 3 })).dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]).toMatchObject({ kind: 'kits-out-of-cold', body: { count: 3 } });
    await expect.element(button(say('round.kits.take-out', { count: 1 }))).not.toBeInTheDocument();
  });

  it('without a box say so, and how to get on is there', async () => {
    const { places } = await atTheCage(roundLog({ 'kit-1': ['felv-test'] }), () => <Kits />);
    await expect.element(page.getByText(say('round.kits.no-box', { kit: kit.name }))).toBeVisible();
    await button(say('round.to-round')).click();
    expect(places.at(-1)).toBe(`/round/${roundId}`);
  });
});

describe('a test that was read', () => {
  /** Started at 13:41, so that its window is open from 13:49 to 13:51; reactive, and nobody else could look. */
  const log = () => {
    const one = roundLog({ 'kit-1': ['felv-test'] });
    drawn(one, 1, '13:40');
    started(one, 1, '13:41');
    const seen = { control: 'seen', antigen: 'seen', invalid: 'not-seen' };
    one.one(
      'test-read',
      'animal:kit-1',
      { run: 'run-1', seen, second: 'not-looked', round: roundId } as never,
      when('13:50'),
    );
    return one;
  };
  const record = button(say('round.read.record'));
  const screen = (at: string) => atTheCage(log(), () => <ReadAlready animal="kit-1" run="run-1" />, { at });

  it('is asked of the second person, with nothing chosen for them, and their look goes on record once', async () => {
    const { written } = await screen('13:50');
    await expect.element(record).toBeDisabled();
    await expect.element(record).toHaveAccessibleDescription(/Sol/);
    for (const one of page.getByRole('radio').elements()) expect((one as HTMLInputElement).checked).toBe(false);
    await choose(say('round.read.second-other', { person: 'Sol' }));
    await expect.element(record).toBeDisabled();
    await choose(say('round.read.second', { person: 'Sol' }));
    await record.dblClick();
    await expect.poll(async () => (await written()).length).toBe(1);
    expect((await written())[0]?.body).toMatchObject({ run: 'run-1', secondReader: 'sol' });
  });

  it('takes no second look after its window, and what to do now stands there', async () => {
    await screen('13:58');
    await expect.element(page.getByText(say('round.reactive.supervisor'))).toBeVisible();
    await expect.element(record).not.toBeInTheDocument();
  });

  it('that nobody knows leads back to the round', async () => {
    const { places } = await atTheCage(log(), () => <ReadAlready animal="kit-1" run="other" />);
    await expect.element(page.getByText(say('round.read.no-test'))).toBeVisible();
    await button(say('round.to-round')).click();
    expect(places.at(-1)).toBe(`/round/${roundId}`);
  });
});
