import { describe, expect, it, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { Held, onPage } from '../../../../test/support/on-page.js';
import { CalendarDate } from '../../../core/calendar.js';
import { say } from '../../../words/say.js';
import { DayField } from './day-field.js';
import { WhenField } from './when-field.js';

const field = page.getByLabelText('Born');

describe('a day', () => {
  it('is the day that stands there, without time or zone, and none when it is taken away', async () => {
    const heard = vi.fn();
    onPage(
      <Held<CalendarDate | null> begin={null} heard={heard}>
        {(value, change) => <DayField label="Born" value={value} onChange={change} />}
      </Held>,
    );
    await field.fill('2026-03-01');
    expect(heard.mock.lastCall).toEqual(['2026-03-01']);
    await field.fill('');
    expect(heard.mock.lastCall).toEqual([null]);
  });

  it('half typed is pointed out, stands for none, and what was typed is still there', async () => {
    const heard = vi.fn();
    onPage(
      <Held<CalendarDate | null> begin={CalendarDate.parse('2026-03-01')} heard={heard}>
        {(value, change) => <DayField label="Born" value={value} onChange={change} />}
      </Held>,
    );
    await expect.element(field).toHaveValue('2026-03-01');
    (field.element() as HTMLElement).focus();
    await userEvent.keyboard('{Delete}');
    await expect.poll(() => heard.mock.lastCall).toEqual([null]);
    await expect.element(field).toHaveAttribute('aria-invalid', 'true');
    await expect.element(field).toHaveAccessibleDescription(new RegExp(say('parts.day-half')));
    // Month or day, whichever stands first in this browser's language, is all that is missing.
    await userEvent.keyboard('3');
    await expect.poll(() => heard.mock.lastCall?.[0]).toMatch(/^2026-03-0[13]$/);
    await expect.element(field).toHaveAttribute('aria-invalid', 'false');
  });
});

describe('when it happened', () => {
  it('is day and time by the shelter’s wall, and none while the time is no time', async () => {
    const heard = vi.fn();
    onPage(<WhenField label="Given" start="2026-03-01T13:40:00.000Z" onChange={heard} />);
    const time = page.getByRole('textbox', { name: say('parts.time') });
    await expect.element(time).toHaveValue('13:40:00');
    await time.fill('9:05');
    expect(heard.mock.lastCall).toEqual(['2026-03-01T09:05:00.000Z']);
    await time.fill('25:00');
    expect(heard.mock.lastCall).toEqual([null]);
    await expect.element(time).toHaveAttribute('aria-invalid', 'true');
    await expect.element(time).toHaveValue('25:00');
    await page.getByLabelText('Given').fill('2026-02-28');
    expect(heard.mock.lastCall).toEqual([null]);
    await time.fill('23:59');
    expect(heard.mock.lastCall).toEqual(['2026-02-28T23:59:00.000Z']);
  });
});
