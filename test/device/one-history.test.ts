import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { AnimalId } from '../../src/core/ids.js';
import { chanceFrom } from '../../src/core/route-plan/model/chance.js';
import { readCursor } from '../../src/device/db.js';
import { letLeave, weighAnimal } from '../../src/log/commands/animal.js';
import { scanChip } from '../../src/log/commands/round.js';
import { type Draft, draft } from '../../src/log/record.js';
import { seed, times } from '../support/chance.js';
import { type Copy, type Device, device, expectOneState, house, noon, settle, write } from '../support/house.js';
import { day, kitten } from '../support/log.js';
import { shelterLog } from '../support/shelter-log.js';

const weigh = async (by: Device, kit: number, grams: number): Promise<string> => {
  const [id] = await write(by, ...weighAnimal(AnimalId.parse(`kit-${kit}`), { grams, entered: `${grams} g` }, noon));
  return String(id);
};

describe('records put back from an older copy', () => {
  it('are met after they have grown past the place of a phone: nothing is lost and the desk is told (Verifies: LOG-R30)', async () => {
    const { line, store, copy, putBack } = await house(shelterLog(3).records);
    const [phone, desk] = [await device(line, 'ines'), await device(line, 'sol')];
    await settle([phone, desk], store);
    const older = await copy();
    const lost = [await weigh(phone, 1, 610), await weigh(phone, 2, 620)];
    await phone.sync.once();

    await putBack(older);
    // The desk goes on first: the log is now longer than the phone has read.
    for (let i = 0; i < 5; i += 1) await weigh(desk, 3, 700 + i);
    await desk.sync.once();
    expect((await store().head()).seq).toBeGreaterThan((await readCursor(phone.db)).place);

    await settle([phone, desk], store);
    const there = await expectOneState([phone, desk], store());
    expect(there.map(({ id }) => id)).toEqual(expect.arrayContaining(lost));
    expect(await store().rows('flags', { code: 'put-back' })).toHaveLength(1);
  });

  it('that knew nothing of an animal leaving, or of one coming back, are told by whoever saw it (Verifies: LOG-R102, LOG-R30)', async () => {
    const { line, store, copy, putBack } = await house(shelterLog(3).records);
    const [phone, desk] = [await device(line, 'ines'), await device(line, 'sol')];
    await settle([phone, desk], store);
    const [gone] = await write(
      desk,
      ...letLeave(AnimalId.parse('kit-2'), { how: 'adopted', on: day('2026-03-02') }, noon),
    );
    await settle([phone, desk], store);
    const older = await copy();
    const away = [
      ...(await write(desk, ...letLeave(AnimalId.parse('kit-1'), { how: 'adopted', on: day('2026-03-02') }, noon))),
      ...(await write(desk, draft('record-withdrawn', 'animal:kit-2', { reason: 'came back' }, noon, gone as never))),
    ];
    await settle([phone, desk], store);
    await expectOneState([phone, desk], store());

    await putBack(older);
    // One that reads from the start meanwhile has it as the copy does.
    const late = await device(line, 'vera');
    await late.sync.once();
    await settle([late, phone, desk], store);
    const there = await expectOneState([late, phone, desk], store());
    expect(there.map(({ id }) => id)).toEqual(expect.arrayContaining(away));
  });
});

/** What somebody does next, on a device as it stands; nothing where there is nothing to do. */
function doing({ store }: Device, chance: () => number, turn: number): readonly Draft[] {
  const pick = <T>(all: readonly T[]): T | undefined => all[Math.floor(chance() * all.length)];
  const { animals, bySubject, shelter } = store.world.get();
  const role = shelter.people.find(({ id }) => id === store.who.get().person)?.role;
  const atDesk = role === 'supervisor' || role === 'medical';
  const here = [...animals.values()].filter(({ left }) => left === null);
  const animal = pick(here);
  const what = chance();
  if (atDesk && (what < 0.12 || animal === undefined)) {
    const id = AnimalId.parse(`new-${turn}-${Math.floor(chance() * 1e6)}`);
    return [draft('animal-taken-in', `animal:${id}`, kitten(`New ${turn}`, '2026-01-20'), noon)];
  }
  if (animal === undefined) return [];
  if (atDesk && what < 0.24) return letLeave(animal.id, { how: 'adopted', on: day('2026-03-02') }, noon);
  if (atDesk && what < 0.36) {
    const leavings = [...bySubject.values()].flat().filter(({ kind }) => kind === 'animal-left');
    const leaving = pick(leavings);
    if (leaving === undefined) return [];
    return [draft('record-withdrawn', leaving.subject, { reason: 'came back' }, noon, leaving.id)];
  }
  if (what < 0.46) {
    const given = { schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'oral' };
    return [draft('treatment-given', `animal:${animal.id}`, given as never, noon)];
  }
  if (what < 0.58) {
    const code = `98514100${String(Math.floor(chance() * 1e7)).padStart(7, '0')}`;
    return scanChip(
      animal.id,
      { target: 'animal', occasion: 'intake', found: { raw: code, code, class: 'iso' } },
      noon,
    );
  }
  return weighAnimal(animal.id, { grams: 400 + turn, entered: `${400 + turn} g` }, noon);
}

describe('ten devices on a line that is cut', () => {
  const seeds = Array.from({ length: times(3, 30) }, (_, index) => seed + index);
  it.each(seeds)(
    'come to one state after an older copy was put back twice, and nothing is lost: %i (Verifies: LOG-R30, LOG-R102)',
    async (own) => {
      const { line, store, copy, putBack, cutBy } = await house(shelterLog(6).records);
      const devices: Device[] = [];
      // Of one standing: what somebody of further word wrote is brought by themselves alone (LOG-R218).
      for (let i = 0; i < 10; i += 1) devices.push(await device(line, 'sol'));
      // Two come late: they read from the start while the others work.
      await settle(devices.slice(0, 8), store);
      const chance = chanceFrom(own);
      const one = <T>(all: readonly T[]): T => all[Math.floor(chance.next() * all.length)] as T;
      const written: string[] = [];
      const work = async (turns: number): Promise<void> => {
        for (let turn = 0; turn < turns; turn += 1) {
          const by = one(devices);
          // Nobody opens what left: those that the device still holds have to do.
          const drafts = by.store.world.get().shelter.id === null ? [] : doing(by, chance.next, written.length);
          if (drafts.length > 0) written.push(...(await write(by, ...drafts)));
          if (chance.next() < 0.6) await one(devices).sync.once();
        }
      };
      cutBy(() => (chance.next() < 0.3 ? one(['before', 'after'] as const) : 'whole'));
      await work(30);
      const older: Copy = await copy();
      await work(40);
      await putBack(older);
      await work(40);
      await putBack(older);
      await work(20);

      cutBy(() => 'whole');
      await settle(devices, store);
      const there = await expectOneState(devices, store());
      expect(there.map(({ id }) => id)).toEqual(expect.arrayContaining(written));
      expect((await store().rows('flags', { code: 'put-back' })).length).toBeGreaterThan(0);
      expect((await store().rows('animals')).filter((row) => row.left_on !== null).length).toBeGreaterThan(0);
    },
  );
});
