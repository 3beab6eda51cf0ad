import { afterEach, describe, expect, it } from 'vitest';
import { PersonId } from '../../src/core/ids.js';
import type { PrivateSide } from '../../src/log/private-side.js';

/** One private side of one kind, made for one test. */
export interface OpenedSide {
  readonly side: PrivateSide;
  /** Another opening of the same one, as another program would; null when this kind lives in one process. */
  readonly another: (() => PrivateSide) | null;
  /** Every byte of its files, read as text; null when it has none. */
  readonly bytes: (() => string) | null;
  readonly dispose: () => Promise<void>;
}

export const id = (text: string): PersonId => PersonId.parse(text);
const tove = { id: id('tove'), name: 'Tove Margin-Invented' };
const mailOf = { by: 'e-mail' as const, value: 'tove@invented.example' };

/** What every private side owes (src/log/private-side.ts), as tests. Run for each kind by private-side.test.ts. */
export function privateSideContract(kind: string, make: () => OpenedSide): void {
  describe(`the private side in ${kind}`, () => {
    const made: OpenedSide[] = [];
    const open = (): OpenedSide => {
      const opened = make();
      made.push(opened);
      return opened;
    };
    afterEach(async () => {
      for (const opened of made.splice(0)) await opened.dispose();
    });

    it('starts empty and in order', async () => {
      const { side } = open();
      expect(await side.people()).toEqual([]);
      expect(await side.faults()).toEqual([]);
    });

    it('keeps who somebody is; what a change leaves out stays, and doing it again changes nothing', async () => {
      const { side } = open();
      expect(await side.change([{ id: id('zed'), name: 'Zed' }, tove])).toEqual(['kept', 'kept']);
      const contacts = [{ by: 'telephone' as const, value: '0 000 0000' }, mailOf];
      for (let again = 0; again < 2; again += 1) await side.change([{ id: tove.id, contacts, licence: 'Invented 7' }]);
      await side.change([{ id: tove.id, name: 'Tove Other', withdrawn: true }]);
      expect(await side.people()).toEqual([
        { id: 'tove', name: 'Tove Other', licence: 'Invented 7', contacts, withdrawn: true },
        { id: 'zed', name: 'Zed', licence: '', contacts: [], withdrawn: false },
      ]);
      await side.change([{ id: tove.id, contacts: [], withdrawn: false }]);
      expect((await side.people())[0]).toMatchObject({ name: 'Tove Other', contacts: [], withdrawn: false });
    });

    it('keeps nobody without a name', async () => {
      const { side } = open();
      expect(await side.change([{ id: tove.id, contacts: [mailOf] }])).toEqual(['nameless']);
      expect(await side.people()).toEqual([]);
    });

    it('gives out the same list as long as nothing has changed, and another one after', async () => {
      const { side } = open();
      await side.change([{ ...tove, contacts: [mailOf] }]);
      const read = await side.people();
      expect(await side.people()).toBe(read);
      await side.change([{ id: tove.id, contacts: [] }]);
      expect(read).toMatchObject([{ contacts: [mailOf] }]);
      expect(await side.people()).toMatchObject([{ contacts: [] }]);
    });

    it('erases a person for good: an old change does not bring the name back (Verifies: LOG-R83)', async () => {
      const { side } = open();
      await side.change([
        { ...tove, contacts: [mailOf] },
        { id: id('zed'), name: 'Zed' },
      ]);
      for (let again = 0; again < 2; again += 1) await side.erase([tove.id]);
      expect(await side.change([tove, { id: id('zed'), name: 'Zed Two' }])).toEqual(['erased', 'kept']);
      expect(await side.people()).toMatchObject([{ id: 'zed', name: 'Zed Two' }]);
      await side.erase([id('never-known')]);
      expect(await side.change([{ id: id('never-known'), name: 'Late' }])).toEqual(['erased']);
    });

    it('has no byte left of what was erased or written over (Verifies: LOG-R83)', async () => {
      const { side, bytes } = open();
      if (bytes === null) return;
      const others = Array.from({ length: 300 }, (_, index) => ({ id: id(`p-${index}`), name: `Other ${index}` }));
      await side.change([...others, { ...tove, licence: 'LICENCE-OLD', contacts: [mailOf] }]);
      for (const word of [tove.name, 'LICENCE-OLD', mailOf.value]) expect(bytes()).toContain(word);
      await side.change([{ id: tove.id, contacts: [], licence: 'LICENCE-NEW' }]);
      for (const word of ['LICENCE-OLD', mailOf.value]) expect(bytes()).not.toContain(word);
      expect(bytes()).toContain('LICENCE-NEW');
      await side.erase([tove.id]);
      for (const word of [tove.name, 'LICENCE-NEW']) expect(bytes()).not.toContain(word);
      expect(bytes()).toContain('Other 299');
    });

    it('is one for all programs that open it', async () => {
      const { side, another } = open();
      if (another === null) return;
      const other = another();
      await side.change([tove]);
      await other.change([{ id: tove.id, contacts: [mailOf] }]);
      expect(await side.people()).toMatchObject([{ name: tove.name, contacts: [mailOf] }]);
      await other.erase([tove.id]);
      expect(await side.people()).toEqual([]);
      expect(await another().faults()).toEqual([]);
    });
  });
}
