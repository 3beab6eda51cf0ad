import type { BodyInput } from '../../src/log/kinds/index.js';
import { starterFormulary, starterProtocol } from './documents.js';
import { at, day, kitten, testLog } from './log.js';

/** A small shelter with signed starter documents, one clean room, quarantine, and lots of everything. */
export function ward(options: { zone?: string; signed?: boolean } = {}) {
  const log = testLog(options);
  const protocol = starterProtocol();
  const formulary = starterFormulary();
  const start = at('2026-01-01', '06:00');
  log.one(
    'shelter-described',
    'shelter:self',
    { name: 'Test ward', zone: options.zone ?? 'UTC', weightUnit: 'g', demo: false },
    start,
  );
  const section = (id: string, rank: BodyInput<'section-described'>['rank']): void => {
    log.one(
      'section-described',
      `section:${id}`,
      {
        section: id as never,
        name: id,
        rank,
        position: 0,
        kennels: ['1', '2'],
        wear: ['wear.gloves'],
        leave: ['leave.hands'],
        contactMinutes: 10,
      },
      start,
    );
  };
  section('quarantine', 'quarantine');
  section('kittens-one', 'clean-kittens');
  const person = (id: string, role: BodyInput<'person-described'>['role']): void => {
    log.one('person-described', `person:${id}`, { person: id as never, role }, start);
  };
  person('ines', 'volunteer');
  person('tom', 'volunteer');
  person('mara', 'medical');
  log.one('protocol-filed', `document:${protocol.id}`, { protocol }, start);
  log.one('formulary-filed', `document:${formulary.id}`, { formulary }, start);
  if (options.signed !== false) {
    for (const document of ['protocol', 'formulary'] as const) {
      const { id, version } = document === 'protocol' ? protocol : formulary;
      const body = {
        document,
        id,
        version,
        signer: 'mara',
        licence: 'licence 0 (invented)',
        on: day('2026-01-01'),
        statement: 'for a test',
      };
      log.one('document-signed', `document:${id}`, body, start);
    }
  }
  const lot = (id: string, of: BodyInput<'lot-received'>['of'], expires: string, pieces: number): void => {
    log.one('lot-received', `lot:${id}`, { of, lotText: id.toUpperCase(), expires: day(expires), pieces }, start);
  };
  lot('worm-a', { is: 'product', product: 'pyrantel-50' as never }, '2027-01-01', 100);
  lot('worm-old', { is: 'product', product: 'pyrantel-50' as never }, '2026-02-01', 5);
  lot('vacc-a', { is: 'product', product: 'core-vaccine-live-1ml' as never }, '2027-01-01', 50);
  lot('kit-a', { is: 'kit', kitType: 'felv-antigen-a' as never, conjugateLot: 'KIT-A' }, '2027-01-01', 10);
  lot('chips-a', { is: 'chips', codes: [] }, '2028-01-01', 25);
  const take = (name: string, born: string, more: Partial<BodyInput<'animal-taken-in'>> = {}): void => {
    log.one(
      'animal-taken-in',
      `animal:${name}`,
      kitten(name, born, { section: 'kittens-one' as never, kennel: '1', ...more }),
      at(more.arrivedOn ?? born),
    );
  };
  return { ...log, take, protocol, formulary };
}
