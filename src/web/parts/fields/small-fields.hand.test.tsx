import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { Held, onPage } from '../../../../test/support/on-page.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { Leaves } from '../tabs.js';
import { OtherScale, useOtherScale } from './other-scale.js';
import { nothingTold, ToldFields, type ToldInput, toldOf } from './told-fields.js';
import { TwoNumbers } from './two-numbers.js';

describe('told by telephone', () => {
  it('nothing is answered beforehand, and “no, not read back” is an answer of its own', async () => {
    const heard = vi.fn();
    onPage(
      <Held<ToldInput> begin={nothingTold} heard={heard}>
        {(value, change) => <ToldFields value={value} onChange={change} from />}
      </Held>,
    );
    await page.getByRole('textbox', { name: say('told.from') }).fill(' The clinic ');
    expect(toldOf(heard.mock.lastCall?.[0] as ToldInput)).toBeNull();
    await page.getByText(say('told.read-back.no'), { exact: true }).click();
    expect(toldOf(heard.mock.lastCall?.[0] as ToldInput)).toEqual({
      how: 'telephone',
      readBack: false,
      from: 'The clinic',
    });
    await page.getByText(say('told.read-back.yes'), { exact: true }).click();
    expect(toldOf(heard.mock.lastCall?.[0] as ToldInput)).toMatchObject({ readBack: true });
  });
});

describe('two numbers', () => {
  it('are framed where they differ, at any length, and it is said at which sign', async () => {
    onPage(
      <TwoNumbers
        numbers={[
          { word: 'On record', code: '900000000000017' },
          { word: 'Read', code: '900000000000071' },
        ]}
      />,
    );
    await expect.element(page.getByText(/14/)).toBeVisible();
    const framed = [...document.querySelectorAll('.chip-sign')].map((sign) => sign.classList.contains('differs'));
    expect(framed.filter(Boolean)).toHaveLength(4);
    expect([framed[13], framed[14], framed[28], framed[29]]).toEqual([true, true, true, true]);
  });

  it('of another kind are not called the same where the shorter one ends', async () => {
    onPage(
      <TwoNumbers
        numbers={[
          { word: 'On record', code: '900000000000017' },
          { word: 'Read', code: '900000000' },
        ]}
      />,
    );
    await expect.element(page.getByText(say('parts.numbers-differ', { count: 6 }))).toBeVisible();
  });
});

const jump = { doubtful: true, confirms: false, beyond: 'jump', why: { say: 'round.back' } } as never;

function Scale() {
  const { other, setOther, proof } = useOtherScale();
  return (
    <>
      <OtherScale look={jump} is={other} onChange={setOther} />
      <p>{`proof ${proof}`}</p>
    </>
  );
}

describe('another scale', () => {
  it('is no proof before it is ticked, and none once the tick is taken away', async () => {
    await atTheCage(roundLog({ 'kit-1': ['roundworm'] }), () => <Scale />, { by: 'sol' });
    await expect.element(page.getByText('proof null')).toBeVisible();
    await page.getByText(say('parts.weight.other-scale')).click();
    await expect.element(page.getByText('proof other-scale')).toBeVisible();
    await page.getByText(say('parts.weight.other-scale')).click();
    await expect.element(page.getByText('proof null')).toBeVisible();
  });
});

describe('leaves of a page', () => {
  it('show one at a time', async () => {
    onPage(
      <Leaves
        label="Papers"
        leaves={[
          { id: 'a', label: 'Sheet', body: <p>the sheet</p> },
          { id: 'b', label: 'Labels', body: <p>the labels</p> },
        ]}
      />,
    );
    await expect.element(page.getByText('the sheet')).toBeVisible();
    await page.getByRole('tab', { name: 'Labels' }).click();
    await expect.element(page.getByText('the labels')).toBeVisible();
    await expect.element(page.getByText('the sheet')).not.toBeInTheDocument();
  });
});
