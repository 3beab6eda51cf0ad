import { beforeEach, describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { Held, onPage } from '../../../../test/support/on-page.js';
import { roundId, roundLog, when } from '../../../../test/support/round-log.js';
import type { InTheSyringe } from '../../../core/bedside/drawn-up.js';
import { ProductId } from '../../../core/ids.js';
import { say } from '../../../words/say.js';
import { BoxLine, useSyringeBox } from '../around/box-line.js';
import { DrawAgain, useDrawnUp } from './drawn-up.js';
import { FirstToExpire } from './first-to-expire.js';
import { ProductSheet } from './product-sheet.js';
import { forgetShown } from './shown-before.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const line = 'kit-1 roundworm';
const card = (amount: string, lot = '00417'): InTheSyringe => ({
  ...{ product: 'Wormer', amount, mark: amount, syringe: '1 mL', strength: '50 mg/mL', lot },
});

function Card({ shown }: { shown: InTheSyringe | null }) {
  const { changes, confirm, byHand } = useDrawnUp(roundId, line, shown);
  return (
    <>
      <button type="button" onClick={byHand}>
        another vial
      </button>
      {changes.length === 0 ? (
        <p>{`may be given ${shown?.lot ?? ''}`}</p>
      ) : (
        <DrawAgain changes={changes} amount={shown?.amount ?? ''} onDrawn={confirm} />
      )}
    </>
  );
}

beforeEach(() => forgetShown(roundId, line));

interface OnPage {
  readonly shown: InTheSyringe | null;
  readonly page: number;
}

/** The card as it stands now, and the way to show another one, on the same page or a new one. */
async function cards(first: InTheSyringe) {
  let change: (next: OnPage) => void = () => undefined;
  let number = 0;
  onPage(
    <Held<OnPage> begin={{ shown: first, page: 0 }}>
      {(now, set) => {
        change = set;
        return <Card key={now.page} shown={now.shown} />;
      }}
    </Held>,
  );
  await expect.element(may).toBeVisible();
  return {
    becomes: (shown: InTheSyringe | null) => change({ shown, page: number }),
    elsewhere: (shown: InTheSyringe | null) => {
      number += 1;
      change({ shown, page: number });
    },
  };
}
const may = page.getByText('may be given');
const again = (amount: string) => button(say('round.drawn-up.confirm', { amount }));

describe('a card whose figure changed while the syringe was in the hand', () => {
  it('says what was and what is now, and is given only when it was drawn up again, also on another page', async () => {
    const { elsewhere } = await cards(card('0.12 mL'));
    elsewhere(card('0.15 mL'));
    await expect.element(page.getByRole('alert')).toHaveTextContent(/0\.12 mL.*0\.15 mL/);
    await expect.element(may).not.toBeInTheDocument();
    await again('0.15 mL').click();
    await expect.element(may).toBeVisible();
    elsewhere(card('0.15 mL'));
    await expect.element(may).toBeVisible();
  });

  it('behind a stop it is not forgotten: the card that comes back is held against the one before the stop', async () => {
    const { becomes } = await cards(card('0.12 mL'));
    becomes(null);
    await expect.element(page.getByText('may be given', { exact: true })).toBeVisible();
    becomes(card('0.10 mL'));
    await expect.element(again('0.10 mL')).toBeVisible();
  });

  it('does not ask about what the person at the card chose, but what changed before that is not waved through', async () => {
    const { becomes } = await cards(card('0.12 mL'));
    await button('another vial').click();
    becomes(card('0.12 mL', '0815'));
    await expect.element(page.getByText('may be given 0815')).toBeVisible();
    becomes(card('0.15 mL', '0815'));
    await expect.element(again('0.15 mL')).toBeVisible();
    await button('another vial').click();
    await expect.element(again('0.15 mL')).toBeVisible();
  });
});

describe('another product', () => {
  it('is one tap; the way back changes nothing', async () => {
    const heard = { choose: vi.fn(), close: vi.fn() };
    const [a, b] = ['a', 'b'].map((id) => ({ id: ProductId.parse(id), name: `Wormer ${id}`, route: 'by mouth' }));
    onPage(
      <ProductSheet
        products={[a, b] as never}
        value={ProductId.parse('a')}
        onChoose={heard.choose}
        onClose={heard.close}
      />,
    );
    await button(say('round.back')).click();
    expect([heard.choose.mock.calls, heard.close.mock.calls.length]).toEqual([[], 1]);
    await page.getByText('Wormer b').click();
    expect(heard.choose.mock.calls).toEqual([['b']]);
  });
});

const FromBox = () => <BoxLine {...useSyringeBox('one', (of) => of.is === 'syringe')} />;

describe('lots and boxes at the card', () => {
  const shelf = () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const lot = (id: string, expires: string, of: object, pieces = 5) =>
      log.one('lot-received', `lot:${id}`, { of, lotText: id, expires, pieces } as never, when('09:00'));
    return { log, lot };
  };

  it('an older lot that is left over is offered before the newer one, in one tap', async () => {
    const { log, lot } = shelf();
    lot('old', '2026-04-01', { is: 'product', product: 'pyrantel-50' });
    const take = vi.fn();
    await atTheCage(log, ({ around }) => {
      const chosen = [...around.shelter.lots.values()].find(({ id }) => id === 'pyr-1');
      return chosen === undefined ? null : <FirstToExpire lot={chosen} onTake={take} />;
    });
    await button(say('round.lot.it-is-labelled', { lot: 'old' })).dblClick();
    expect(take.mock.calls).toEqual([['old']]);
  });

  it('the next box is one tap on, after the last stands none of them, and from there it begins anew', async () => {
    const { log, lot } = shelf();
    lot('A1', '2026-06-01', { is: 'syringe', syringe: 'one' });
    lot('A2', '2026-07-01', { is: 'syringe', syringe: 'one' });
    await atTheCage(log, () => <FromBox />);
    const shown = page.getByText(/A1|A2/);
    const other = page.getByRole('button');
    await expect.element(shown).toHaveTextContent('A1');
    await other.click();
    await expect.element(shown).toHaveTextContent('A2');
    await expect.element(button(say('round.syringe-box.not-listed'))).not.toHaveAttribute('data-held');
    await other.click();
    await expect.element(page.getByText(say('round.syringe-box.none'))).toBeVisible();
    await expect.element(other).not.toHaveAttribute('data-held');
    await other.click();
    await expect.element(shown).toHaveTextContent('A1');
  });
});
