import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { Held, onPage } from '../../../test/support/on-page.js';
import { starterKit as kit } from '../../../test/support/starter-kit.js';
import type { Seen } from '../../core/point-of-care/result.js';
import { Zones } from './zones.js';

const pressed = () =>
  page
    .getByRole('button')
    .elements()
    .filter((one) => one.getAttribute('aria-pressed') === 'true')
    .map((one) => one.textContent);

describe('the zones of a kit', () => {
  it('are all asked, and none is answered beforehand', async () => {
    onPage(<Zones kit={kit} seen={{}} onSeen={() => undefined} />);
    await expect.element(page.getByText(kit.zones[0]?.name ?? '', { exact: true })).toBeVisible();
    expect(page.getByRole('group').elements()).toHaveLength(kit.zones.length);
    expect(pressed()).toEqual([]);
  });

  it('take the last answer of each, and leave the others as they were', async () => {
    const heard = vi.fn();
    onPage(
      <Held<Seen> begin={{}} heard={heard}>
        {(seen, change) => <Zones kit={kit} seen={seen} onSeen={change} />}
      </Held>,
    );
    const answer = (zone: number, name: string) =>
      page.getByRole('group').nth(zone).getByRole('button', { name, exact: true }).click();
    await answer(0, 'seen');
    await answer(1, 'faint');
    await answer(1, 'not seen');
    const [first, second] = kit.zones.map(({ id }) => id);
    expect(heard).toHaveBeenLastCalledWith({ [first ?? '']: 'seen', [second ?? '']: 'not-seen' });
    expect(pressed()).toEqual(['seen', 'not seen']);
  });
});
