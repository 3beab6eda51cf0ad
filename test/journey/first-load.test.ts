import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import { scriptsOverTheWire, type Wire } from './pages/wire.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';
/** Bytes of script that a first page may take; ours, for a shelter's poor Wi-Fi. A kB is 1,000 bytes. */
const most = { phone: 250_000, desk: 300_000 };

const shelter = openShelter('first-load', start);
let { phone, desk }: Opened = {} as Opened;
let phoneWire: Wire;

beforeAll(() => {
  ({ phone, desk } = shelter());
});

describe.sequential('what a first page fetches', () => {
  it('is little for the first page of a running round, on a phone', async () => {
    await phone.takeDemo();
    await phone.workAs('Tove Margin');
    await phone.open('/rounds/prepare');
    await phone.choose('Kitten room A');
    await phone.says('Say who treats and who holds in every team, or that somebody works alone.');
    await phone.pick('Holds', 'Mina Folio');
    await phone.press('Begin the round');
    await phone.says('Sections, in this order');
    await phone.isSent();
    phoneWire = await scriptsOverTheWire(phone.page, () => phone.says('Sections, in this order'));
    expect(phoneWire.scripts.length).toBeGreaterThan(2);
    expect(phoneWire.bytes, list(phoneWire)).toBeLessThanOrEqual(most.phone);
  });

  it('is little for the desk’s first page', async () => {
    await desk.workAs('Ada Quill');
    await desk.says('Needs somebody now');
    const wire = await scriptsOverTheWire(desk.page, () => desk.says('Needs somebody now'));
    expect(wire.scripts.length).toBeGreaterThan(2);
    expect(wire.bytes, list(wire)).toBeLessThanOrEqual(most.desk);
  });

  it('is seen to be too much when nothing is packed', async () => {
    const wire = await scriptsOverTheWire(phone.page, () => phone.says('Sections, in this order'), 'identity');
    expect(wire.bytes).toBeGreaterThan(most.desk);
    expect(wire.bytes).toBeGreaterThan(2 * phoneWire.bytes);
  });
});

const list = ({ scripts }: Wire): string => scripts.map(([url, bytes]) => `${bytes} ${url}`).join('\n');
