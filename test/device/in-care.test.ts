import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { AnimalId, LotId, type RecordId, RoundId } from '../../src/core/ids.js';
import { letLeave, weighAnimal } from '../../src/log/commands/animal.js';
import { scanChip } from '../../src/log/commands/round.js';
import { type Draft, draft, type LogRecord } from '../../src/log/record.js';
import { lotUse } from '../../src/log/stock/lots.js';
import { checkPack } from '../../src/log/views/chips/chip-pack.js';
import {
  animalsOn,
  type Device,
  device,
  expectOneState,
  house,
  loadedAgain,
  noon,
  settle,
  write,
} from '../support/house.js';
import { at, day, kitten } from '../support/log.js';
import { shelterLog, weighed } from '../support/shelter-log.js';

const id = (kit: number) => AnimalId.parse(`kit-${kit}`);
const leave = (kit: number): Draft[] => letLeave(id(kit), { how: 'adopted', on: day('2026-03-02') }, noon);
const weigh = (kit: number, grams = 610): Draft[] => weighAnimal(id(kit), { grams, entered: `${grams} g` }, noon);
const back = (kit: number, leaving: string | undefined): Draft =>
  draft('record-withdrawn', `animal:kit-${kit}`, { reason: 'came back' }, noon, leaving as RecordId);
const chip = (kit: number, code: string): Draft[] =>
  scanChip(id(kit), { target: 'animal', occasion: 'intake', found: { raw: code, code, class: 'iso' } }, noon);
const code = '985141000000007';

/** A shelter of so many kittens of which the last ones have left, each with a few weighings. */
function log(kittens: number, gone: number): readonly LogRecord[] {
  const made = shelterLog(kittens);
  for (let kit = 1; kit <= kittens; kit += 1) {
    made.add(Array.from({ length: 5 }, (_, index) => weighed(kit, 500 + index, noon)));
    if (kit > kittens - gone) made.add(leave(kit), 'sol');
  }
  return made.records;
}

describe('a first fetch', () => {
  it('brings the shelter and the animals in care, and asks no more for those that left (Verifies: LOG-R101)', async () => {
    const few = await house(log(4, 1));
    const many = await house(log(40, 37));
    const phones = [await device(few.line, 'ines'), await device(many.line, 'ines')] as const;
    await phones[0].sync.once();
    await phones[1].sync.once();
    expect(animalsOn(phones[1])).toEqual(animalsOn(phones[0]));
    expect(await phones[1].db.records.count()).toBe(await phones[0].db.records.count());
    expect(many.asked.map((url) => url.split('?')[0])).toEqual(few.asked.map((url) => url.split('?')[0]));
    await expectOneState([phones[1]], many.store());
  });

  it('that is cut and goes on after some have left and come back holds what is here then (Verifies: LOG-R101, LOG-R102)', async () => {
    // More than one page, so that there is a middle.
    const { line, store, cutBy, asked } = await house(log(120, 20));
    const [desk, phone] = [await device(line, 'sol'), await device(line, 'ines')];
    await settle([desk], store);
    let pages = 0;
    cutBy(() => {
      if (!asked.at(-1)?.startsWith('/api/records')) return 'whole';
      pages += 1;
      return pages > 1 ? 'before' : 'whole';
    });
    await phone.sync.once();
    cutBy(() => 'whole');
    expect(phone.store.status.get().whole).toBe(false);
    // The first, a middle and the last animal of those that it has read, or was about to.
    const leavings = await write(desk, ...leave(1), ...leave(50), ...leave(100));
    await desk.sync.once();
    await write(desk, back(50, leavings[1]), ...weigh(50, 777));
    await settle([desk, phone], store);
    await expectOneState([desk, phone], store());
    expect(animalsOn(phone)).toHaveLength(98);
  });
});

describe('an animal that leaves', () => {
  it('goes from every device once nothing about it waits there, also after a reload (Verifies: LOG-R102)', async () => {
    const { line, store, cutBy } = await house(log(3, 0));
    const [desk, phone] = [await device(line, 'sol'), await device(line, 'ines')];
    await settle([desk, phone], store);
    cutBy(() => 'before');
    const unsent = await write(phone, ...weigh(1, 640));
    cutBy(() => 'whole');
    await write(desk, ...leave(1));
    await desk.sync.once();
    expect(animalsOn(desk)).toEqual(['kit-2', 'kit-3']);
    // The server's answer is lost: the weighing may be there or not, so the animal stays.
    cutBy(() => 'after');
    await phone.sync.once();
    expect(animalsOn(phone)).toContain('kit-1');
    cutBy(() => 'whole');
    await settle([desk, phone], store);
    await expectOneState([desk, phone], store());
    expect((await store().read()).map((one) => one.id)).toEqual(expect.arrayContaining([...unsent]));
    expect(animalsOn(await loadedAgain(phone, line))).toEqual(['kit-2', 'kit-3']);
  });

  it('lies aside for 30 days, and then goes from the database (Verifies: LOG-R102)', async () => {
    const { line, store } = await house(log(3, 0));
    const desk = await device(line, 'sol');
    await settle([desk], store);
    await write(desk, ...leave(1));
    await desk.sync.once();
    await desk.sync.once();
    const there = () => desk.db.records.where('subject').equals('animal:kit-1').count();
    expect(await there()).toBeGreaterThan(0);
    const [soon, late] = [at('2026-04-01', '11:00'), at('2026-04-01', '13:00')];
    await (await loadedAgain(desk, line, () => soon)).store.setAside();
    expect(await there()).toBeGreaterThan(0);
    await (await loadedAgain(desk, line, () => late)).store.setAside();
    expect(await there()).toBe(0);
    expect(await desk.db.aside.count()).toBe(0);
  });

  it('stays while the round that it is on is not accepted (Verifies: LOG-R102)', async () => {
    const { line, store } = await house(log(3, 0));
    const desk = await device(line, 'sol');
    await settle([desk], store);
    const round = RoundId.parse('round-1');
    const plan = { on: day('2026-03-02'), sections: ['nursery'], treater: 'ines', holder: null } as never;
    const lines = [{ animal: id(1), schedules: [] }];
    await write(desk, draft('round-planned', `round:${round}`, { ...(plan as object), lines } as never, noon));
    await write(desk, ...leave(1), ...leave(2));
    await settle([desk], store);
    expect(animalsOn(desk)).toEqual(['kit-1', 'kit-3']);
    await write(desk, draft('handed-back', `round:${round}`, { done: 0, notDone: 0, abnormal: 0 }, noon));
    await write(desk, draft('hand-back-accepted', `round:${round}`, {}, noon));
    await settle([desk], store);
    await expectOneState([desk], store());
  });

  it('and comes back, or is written about by somebody who held it, is here whole (Verifies: LOG-R102)', async () => {
    const { line, store } = await house(log(3, 0));
    const [desk, phone] = [await device(line, 'sol'), await device(line, 'ines')];
    await settle([desk, phone], store);
    const [leaving] = await write(desk, ...weigh(1, 650), ...leave(1)).then((ids) => ids.slice(1));
    await settle([desk, phone], store);
    // One that first fetched when it was gone has never had anything of it.
    const late = await device(line, 'vera');
    await settle([late], store);
    expect(animalsOn(late)).toEqual(['kit-2', 'kit-3']);
    await late.sync.openAnimal(id(1));
    await write(late, back(1, leaving), ...weigh(1, 700));
    await settle([late, desk, phone], store);
    await expectOneState([late, desk, phone], store());
    for (const one of [late, desk, phone]) {
      expect(
        one.store.world
          .get()
          .animals.get(id(1))
          ?.weighings.map(({ grams }) => grams),
      ).toEqual(expect.arrayContaining([500, 650, 700]));
    }
  });
});

describe('opening an animal that left (Verifies: LOG-R104)', () => {
  it('fetches its whole history, and lets it go when nobody looks at it any more', async () => {
    const { line, store } = await house(log(3, 1));
    const desk = await device(line, 'sol');
    await settle([desk], store);
    expect(animalsOn(desk)).toEqual(['kit-1', 'kit-2']);
    const close = desk.store.lookAt(id(3));
    expect(await desk.sync.openAnimal(id(3))).toMatchObject({ reached: true, asOf: noon });
    expect(desk.store.world.get().animals.get(id(3))?.weighings).toHaveLength(5);
    await desk.sync.once();
    expect(animalsOn(desk)).toContain('kit-3');
    close();
    await desk.sync.once();
    expect(animalsOn(desk)).toEqual(['kit-1', 'kit-2']);
    expect(animalsOn(await loadedAgain(desk, line))).toEqual(['kit-1', 'kit-2']);
  });

  it('takes what is put right there to the server and has it back, and then lets go', async () => {
    const { line, store } = await house(log(3, 1));
    const [desk, phone] = [await device(line, 'sol'), await device(line, 'ines')];
    await settle([desk, phone], store);
    const close = desk.store.lookAt(id(3));
    await desk.sync.openAnimal(id(3));
    const [note] = await write(desk, draft('animal-described', 'animal:kit-3', { notes: 'chip form sent' }, noon));
    await settle([desk, phone], store);
    expect(desk.store.world.get().animals.get(id(3))?.notes).toBe('chip form sent');
    expect((await desk.db.records.get(String(note)))?.seq).toBeGreaterThan(0);
    close();
    await settle([desk, phone], store);
    await expectOneState([desk, phone], store());
  });

  it('says that it cannot be had without the server, and leaves everything as it is', async () => {
    const { line, store, cutBy } = await house(log(3, 1));
    const desk = await device(line, 'sol');
    await settle([desk], store);
    cutBy(() => 'before');
    expect(await desk.sync.openAnimal(id(3))).toEqual({ reached: false, code: 'unreachable' });
    expect(animalsOn(desk)).toEqual(['kit-1', 'kit-2']);
    expect(await desk.db.aside.count()).toBe(0);
  });
});

describe('the index of all chips on a device (Verifies: LOG-R103, LOG-R105)', () => {
  const pack = (one: Device) => checkPack(code, one.store.world.get());

  it('knows without the network a chip whose animal left before the device was new, and keeps it over a reload', async () => {
    const { line, store, cutBy } = await house(log(3, 0));
    const desk = await device(line, 'sol');
    await settle([desk], store);
    await write(desk, ...chip(3, code), ...leave(3));
    await settle([desk], store);
    const phone = await device(line, 'ines');
    await settle([phone], store);
    cutBy(() => 'before');
    const again = await loadedAgain(phone, line);
    for (const one of [desk, phone, again]) {
      expect(pack(one)).toMatchObject({ ok: false, why: { say: 'round.chip.taken-left', with: { code } } });
    }
    expect(animalsOn(again)).toEqual(['kit-1', 'kit-2']);
  });

  it('fetches only what is new, and loses a number that was read by mistake', async () => {
    const { line, store, asked } = await house(log(3, 0));
    const [desk, phone] = [await device(line, 'sol'), await device(line, 'ines')];
    await settle([desk, phone], store);
    const ids = await write(desk, ...chip(3, code), ...leave(3));
    await settle([desk, phone], store);
    expect(pack(phone).ok).toBe(false);
    const close = desk.store.lookAt(id(3));
    await desk.sync.openAnimal(id(3));
    await write(desk, draft('record-withdrawn', 'animal:kit-3', { reason: 'misread' }, noon, ids[0] as RecordId));
    await settle([desk, phone], store);
    close();
    expect(pack(phone).ok).toBe(true);
    const before = asked.filter((url) => url.startsWith('/api/chips')).length;
    await phone.sync.once();
    expect(asked.filter((url) => url.startsWith('/api/chips'))).toHaveLength(before);
    expect(asked.filter((url) => /^\/api\/chips(\?|$)/.test(url) && !url.includes('after='))).toHaveLength(2);
  });

  it('says it of an animal that is taken in on the device itself, without a server', async () => {
    const { line, store, cutBy } = await house(log(2, 0));
    const desk = await device(line, 'sol');
    await settle([desk], store);
    cutBy(() => 'before');
    await write(desk, draft('animal-taken-in', 'animal:new', kitten('New', '2026-01-20'), noon));
    const found = { raw: code, code, class: 'iso' };
    await write(desk, ...scanChip(AnimalId.parse('new'), { target: 'animal', occasion: 'intake', found }, noon));
    expect(pack(desk)).toMatchObject({ why: { say: 'round.chip.taken' } });
  });
});

describe('what is left of a lot on a device (Verifies: LOG-R106)', () => {
  const lot = LotId.parse('pyr-1');
  const leftOn = (one: Device) => lotUse(one.store.world.get()).get(lot)?.left;
  const give = (kit: number): Draft =>
    draft(
      'treatment-given',
      `animal:kit-${kit}`,
      { schedule: 'roundworm', product: 'pyrantel-50', lot, volume_ul: 120, route: 'oral' } as never,
      noon,
    );

  it('counts what animals took that are not here, without the network too, and what is given here since', async () => {
    const { line, store, cutBy } = await house(log(4, 0));
    const desk = await device(line, 'sol');
    await settle([desk], store);
    await write(desk, give(1), give(2), give(3));
    await write(desk, ...leave(1), ...leave(2));
    await settle([desk], store);
    const phone = await device(line, 'ines');
    await settle([phone], store);
    expect([leftOn(desk), leftOn(phone)]).toEqual([37, 37]);
    cutBy(() => 'before');
    await write(phone, give(4));
    expect([leftOn(phone), leftOn(await loadedAgain(phone, line))]).toEqual([36, 36]);
  });

  it('counts one that is opened once, and starts anew when the lot was counted', async () => {
    const { line, store } = await house(log(3, 0));
    const [desk, phone] = [await device(line, 'sol'), await device(line, 'ines')];
    await settle([desk, phone], store);
    await write(desk, give(1), ...leave(1));
    await settle([desk, phone], store);
    const close = desk.store.lookAt(id(1));
    await desk.sync.openAnimal(id(1));
    expect(leftOn(desk)).toBe(39);
    close();
    await desk.sync.once();
    expect(leftOn(desk)).toBe(39);
    await write(desk, draft('lot-counted', `lot:${lot}`, { pieces: 20 }, at('2026-03-02', '13:00')));
    expect(leftOn(desk)).toBe(20);
    await settle([desk, phone], store);
    await expectOneState([desk, phone], store());
  });
});
