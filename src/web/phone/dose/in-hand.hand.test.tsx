import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { onPage } from '../../../../test/support/on-page.js';
import { starterFormulary as formulary } from '../../../../test/support/shelter-log.js';
import { doseOf } from '../../../core/dosing/dose.js';
import { writeStrength } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { InHand, mustReadLabel, useHand } from './in-hand.js';

/** A product that is sold in another strength too, under a lot that is on no list. */
const product = formulary.products.find(
  (one) =>
    one.twins.length > 0 && one.makeUp === null && one.dilutions.length === 0 && one.ingredients[0]?.mg_per_ml != null,
);
const own = product?.ingredients[0]?.mg_per_ml ?? '0';
const other = product?.twins[0]?.mg_per_ml ?? '0';

function Vial({ lot }: { lot: string }) {
  if (product === undefined) throw new Error('no product has a twin');
  const [hand, onHand] = useHand(product, lot);
  const dose = doseOf({
    ...{ product, formulary, now: '2026-03-01T13:40:00.000Z', today: '2026-03-01' },
    weighing: { grams: 620, at: '2026-03-01T12:00:00.000Z', doubtful: false },
    ageDays: { youngest: 90, oldest: 90 },
    syringes: formulary.syringes.map(({ id }) => id),
  } as never);
  return (
    <>
      <output>{mustReadLabel(product, hand, true) ? 'read the label' : (hand.strengthRead ?? '')}</output>
      <InHand product={product} dose={dose} hand={hand} onHand={onHand} unlisted />
    </>
  );
}
const strength = (of: string) => page.getByRole('button', { name: writeStrength(of), exact: true });

describe('the vial in the hand', () => {
  it('of a lot that nobody knows is read before anything is drawn, and each strength it is sold in is asked for', async () => {
    onPage(<Vial lot="first" />);
    await expect.element(page.getByText('read the label')).toBeVisible();
    await expect.element(page.getByText(say('drawup.label.which'))).toBeVisible();
    await strength(other).click();
    await expect.element(page.getByRole('status').first()).toHaveTextContent(other);
    await strength(own).click();
    await expect.element(page.getByRole('status').first()).toHaveTextContent(own);
    await expect.element(strength(other)).not.toBeInTheDocument();
  });

  it('what was read on one vial is not said of another lot', async () => {
    onPage(<Vial lot="second" />);
    await expect.element(page.getByText('read the label')).toBeVisible();
  });
});
