import { describe, expect, it } from 'vitest';
import { code, noon, server, value } from '../../test/support/app.js';
import { starterFormulary, starterProtocol } from '../../test/support/documents.js';
import { day } from '../../test/support/log.js';
import { shelterLog, shelterPeople } from '../../test/support/shelter-log.js';
import { makeDemo } from '../demo/make-demo.js';
import { memoryPrivateSide } from '../store/private/memory.js';
import { verifyPictures } from '../store/verify-pictures.js';

describe('setting up', () => {
  it('says that there is nothing yet, and takes nothing in', async () => {
    const { as } = await server();
    expect(value(await as(null).shelter())).toEqual({
      state: 'empty',
      serverAt: noon,
      version: '9.9.9',
      demoOffered: false,
    });
    expect(code(await as('x').append({ records: [] }))).toBe('no-shelter-yet');
    expect(code(await as('x').due())).toBe('no-shelter-yet');
  });

  it('makes a shelter of one form, with what is usual for each section, on the device that asked', async () => {
    const people = memoryPrivateSide();
    const { as, store, setUp } = await server({ people });
    const done = value(await as(null).setUp(setUp));
    expect(done.shelter).toMatchObject({
      state: 'ready',
      name: 'Own shelter',
      zone: 'Europe/Paris',
      demo: false,
      protocol: null,
    });
    expect(done.shelter.people.find(({ id }) => id === done.person)?.role).toBe('supervisor');
    expect((await people.people()).find(({ id }) => id === done.person)?.name).toBe('Bo');
    const records = await store.read();
    expect(records.map(({ deviceSeq }) => deviceSeq)).toEqual(records.map((_, index) => index + 1));
    expect(new Set(records.map(({ device, by }) => `${device} ${by}`))).toEqual(new Set([`desk-1 ${done.person}`]));
    const isolation = records.find(({ body }) => (body as { rank?: string }).rank === 'isolation')?.body;
    expect(isolation).toMatchObject({ contactMinutes: 5, wear: expect.arrayContaining(['wear.gown']) });
  });

  it('makes one shelter when two people press at the same time', async () => {
    const { as, store, setUp } = await server();
    const [first, second] = await Promise.all([as(null).setUp(setUp), as(null).setUp({ ...setUp, name: 'Other' })]);
    expect([code(first), code(second)]).toEqual(['ok', 'shelter-exists']);
    expect((await store.rows('people')).length).toBe(2);
  });

  it.each([
    ['me outside the list', { me: 7 }, 'request-malformed'],
    ['a zone that is none', { zone: 'Mars/Olympus' }, 'request-malformed'],
    ['a volunteer alone', { me: 0 }, 'setup-needs-supervisor'],
  ])('does not make one of %s', async (_what, asked, wanted) => {
    const { as, store, setUp } = await server();
    const answer = await as(null).setUp({ ...setUp, ...asked });
    expect(code(answer)).toBe(wanted);
    expect(answer).toMatchObject({ problem: { detail: expect.stringMatching(/\w.*\.$/) } });
    expect((await store.head()).seq).toBe(0);
  });

  it('offers the invented shelter only where there is one, and not over another', async () => {
    const without = await server();
    expect(code(await without.as(null).setUpDemo({}))).toBe('demo-not-offered');
    const asked: unknown[] = [];
    const { as, store } = await server({
      zone: 'Pacific/Auckland',
      demo: (given) => {
        asked.push(given);
        return { records: shelterLog().records, people: shelterPeople };
      },
    });
    expect(value(await as(null).shelter())).toMatchObject({ demoOffered: true });
    expect(value(await as(null).setUpDemo({ seed: 7 }))).toMatchObject({ state: 'ready', name: 'Test nursery' });
    expect(asked).toMatchObject([{ today: day('2026-03-03'), now: noon, zone: 'Pacific/Auckland', seed: 7 }]);
    expect(code(await as(null).setUpDemo({}))).toBe('shelter-exists');
    expect((await store.head()).seq).toBe(shelterLog().records.length);
  });

  it('gives animals of the invented shelter drawn pictures, the same ones each time', async () => {
    const names = [];
    for (const seed of [1, 2]) {
      const { as, store, blobs } = await server({
        demo: (at) => makeDemo({ ...at, protocol: starterProtocol(), formulary: starterFormulary() }),
      });
      value(await as(null).setUpDemo({ seed }));
      expect(await verifyPictures(store, blobs)).toMatchObject({ whole: true, unreferenced: [] });
      names.push(await blobs.list());
    }
    expect(names[0]).toHaveLength(8);
    expect(names[1]).toEqual(names[0]);
  });
});
