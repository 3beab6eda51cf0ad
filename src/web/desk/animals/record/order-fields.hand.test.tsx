import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { Held, onPage } from '../../../../../test/support/on-page.js';
import { gate } from '../../../../core/dosing/gate.js';
import { said } from '../../../../core/said.js';
import { say } from '../../../../words/say.js';
import { noDose, OrderDoseFields, readDose, type TypedDose } from './order-dose-fields.js';
import { OrderOpensFields, readOpens, type TypedOpen } from './order-opens.js';
import { type OrderTimes, OrderTimingFields, readTimes, usualTimes } from './order-timing-fields.js';

const box = (name: string) => page.getByRole('textbox', { name, exact: true });

describe('the form of an order', () => {
  it('asks of one as needed what for and how far apart, and reads nothing before both are there (Verifies: PROT-R54)', async () => {
    const heard = vi.fn();
    onPage(
      <Held<OrderTimes> begin={{ ...usualTimes, ends: 'when-ended' }} heard={heard}>
        {(value, change) => <OrderTimingFields value={value} onChange={change} />}
      </Held>,
    );
    const read = () => readTimes(heard.mock.lastCall?.[0] as OrderTimes);
    await page.getByText(say('desk.order.timing.as-needed'), { exact: true }).click();
    expect(read()).toBeNull();
    await page.getByRole('textbox', { name: new RegExp(say('desk.order.reason')) }).fill('pain');
    expect(read()).toBeNull();
    await box(say('desk.order.least-needed')).fill('4');
    await box(say('desk.order.most')).fill('3');
    await page.getByText(say('desk.order.turn.2'), { exact: true }).click();
    await expect.poll(read).toEqual({
      timing: { is: 'as-needed', reason: 'pain', turn: 2 },
      startsAt: null,
      leastHours: 4,
      mostADay: { amount: '3', unit: 'times' },
      ends: { is: 'when-ended' },
    });
  });

  it('asks about a range: one end of it, or who chooses (Verifies: PROT-R56)', async () => {
    const heard = vi.fn();
    onPage(
      <Held<TypedDose> begin={{ ...noDose, how: 'figure' }} heard={heard}>
        {(value, change) => <OrderDoseFields value={value} onChange={change} />}
      </Held>,
    );
    const read = () => readDose(heard.mock.lastCall?.[0] as TypedDose);
    const amount = box(say('desk.order.dose.amount'));
    await amount.fill('5-10');
    const ends = page.getByRole('group', { name: say('desk.order.range', { text: '5-10' }) }).getByRole('button');
    await expect.poll(() => ends.elements().length).toBe(4);
    expect(read()).toBeNull();
    await ends.nth(1).click();
    await expect.poll(() => read()?.dose?.amount).toBe('10');
    await amount.fill('5-10');
    await ends.nth(3).click();
    await expect.poll(read).toMatchObject({ dose: null, chosenBy: 'medical' });
    expect(read()?.amount).toMatch(/^5 to 10.mg.per.kg each time$/);
  });

  it('opens a stop of the label with a reason and a last day only (Verifies: PROT-R58)', async () => {
    const heard = vi.fn();
    const stops = [gate('below-label-age', 'stop', said('round.back'))];
    onPage(
      <Held<readonly TypedOpen[]> begin={[]} heard={heard}>
        {(value, change) => (
          <OrderOpensFields stops={stops} value={value} until={'2026-03-14' as never} onChange={change} />
        )}
      </Held>,
    );
    const read = () => readOpens(stops, heard.mock.lastCall?.[0] as readonly TypedOpen[]);
    await page.getByText(say('desk.order.opens')).first().click();
    expect(read()).toBeNull();
    await page.getByRole('textbox', { name: new RegExp(say('desk.order.opens-why')) }).fill('Vomits all day.');
    await expect.poll(read).toEqual([{ gate: 'below-label-age', reason: 'Vomits all day.', until: '2026-03-14' }]);
    expect(readOpens([], heard.mock.lastCall?.[0] as readonly TypedOpen[])).toEqual([]);
  });
});
