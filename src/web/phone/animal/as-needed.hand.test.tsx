import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog, when } from '../../../../test/support/round-log.js';
import { draft } from '../../../log/record.js';
import { asNeededOf } from '../../../log/views/round/as-needed.js';
import { say } from '../../../words/say.js';
import { AsNeededOrders, AsNeededStep } from './as-needed.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });
const give = button(say('round.as-needed.give', { what: 'Pyrantel' }));
const asDrawn = button(say('round.give.as-drawn'));

const order = {
  name: 'Pyrantel',
  treat: { is: 'product', product: 'pyrantel-50' },
  starts: '2026-03-01',
  timing: { is: 'as-needed', reason: 'worms seen' },
  leastHours: 4,
  ends: { is: 'when-ended' },
  vet: 'vera',
};

/** A kitten with an order as needed, on a round on which only its weight is planned; the order is drawn as the animal's screen does. */
async function cage(at = '13:40', given: string | null = null, told: string | null = null) {
  const log = roundLog({ 'kit-1': ['weighing'] });
  log.one('animal-weighed', 'animal:kit-1', { grams: 620, entered: '620 g' }, when('12:00'));
  const byPhone = { order: { ...order, starts: '2026-02-28' }, told: { how: 'telephone', readBack: true } };
  const written =
    told === null
      ? log.one('order-written', 'animal:kit-1', { order } as never, when('08:00'), undefined, { by: 'vera' })
      : log.add([{ ...draft('order-written', 'animal:kit-1', byPhone as never, told), by: 'vera' as never }], 'sol')[0];
  if (given !== null) {
    const schedule = `order-${written?.id.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}`;
    const dose = { schedule, product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'by mouth' };
    log.one('treatment-given', 'animal:kit-1', dose as never, when(given));
  }
  const found: { asked: boolean; back: number } = { asked: false, back: 0 };
  const there = await atTheCage(
    log,
    ({ around, stop }) => {
      const [one] = asNeededOf(around.world, stop.animal, around.today);
      if (one === undefined) return null;
      return found.asked ? (
        <AsNeededStep
          stop={stop}
          one={one}
          onBack={() => {
            found.back += 1;
          }}
        />
      ) : (
        <AsNeededOrders
          stop={stop}
          onGive={() => {
            found.asked = true;
          }}
        />
      );
    },
    { at },
  );
  return { ...there, found };
}

describe('an order as needed at the cage (Verifies: PROT-R54)', () => {
  it('stands there with its reason and distance, and is given and recorded once by two presses', async () => {
    const { written, itIs } = await cage();
    const card = page.getByRole('region', { name: say('round.as-needed.title') });
    await expect.element(card).toHaveTextContent(/as needed for worms seen; at least 4 hours between two/);
    await give.click();
    itIs('13:41');
    await expect.element(asDrawn).toBeVisible();
    await asDrawn.dblClick();
    await expect.poll(async () => (await written()).map(({ kind }) => kind)).toEqual(['treatment-given']);
    const body = (await written())[0]?.body as { schedule: string; dueAt: unknown; round: string };
    expect(body.schedule).toMatch(/^order-/);
    expect([body.dueAt ?? null, body.round]).toEqual([null, 'round-1']);
  });

  it('says until when it is too soon, and writes nothing down when it is not needed after all', async () => {
    const { written, found, itIs } = await cage('13:40', '12:10');
    const soon = say('round.wait.not-before-time', { at: { instant: when('16:10') } });
    await expect.element(page.getByText(soon)).toBeVisible();
    await give.click();
    itIs('13:41');
    await expect.element(asDrawn).not.toBeInTheDocument();
    await button(say('round.as-needed.back')).click();
    expect(found.back).toBe(1);
    await button(say('round.wait.go-on')).click();
    // The product's own distance stands on the card as on any other.
    await expect.element(page.getByText(say('gate.ingredient-too-soon')).first()).toBeVisible();
    await expect.element(asDrawn).not.toBeInTheDocument();
    expect(await written()).toEqual([]);
  });
});

describe('an order told by telephone (Verifies: LOG-R220)', () => {
  it('is given while its hours last', async () => {
    const { itIs } = await cage('13:40', null, '2026-02-28T19:00:00.000Z');
    await give.click();
    itIs('13:41');
    await expect.element(asDrawn).toBeVisible();
  });

  it('says that it has lapsed when nobody countersigned it in time, and nobody goes on past that', async () => {
    const { written, itIs } = await cage('13:40', null, '2026-02-28T12:00:00.000Z');
    await expect.element(page.getByText(/has lapsed/).first()).toBeVisible();
    await give.click();
    itIs('13:41');
    await expect.element(button(say('round.as-needed.back'))).toBeVisible();
    await expect.element(button(say('round.wait.go-on'))).not.toBeInTheDocument();
    await expect.element(asDrawn).not.toBeInTheDocument();
    expect(await written()).toEqual([]);
  });
});
