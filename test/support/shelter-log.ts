// As text, so that a browser can read them too.
import formularyText from '../../protocols/starter-formulary.json?raw';
import protocolText from '../../protocols/starter-protocol.json?raw';
import { FormularyDocument } from '../../src/core/dosing/formulary.js';
import { ProtocolDocument } from '../../src/core/protocol/document/document.js';
import { PrivatePerson } from '../../src/log/private-side.js';
import { type Draft, draft, type LogRecord } from '../../src/log/record.js';
import { at, day, kitten, testLog } from './log.js';

export const starterProtocol = ProtocolDocument.parse(JSON.parse(protocolText));
export const starterFormulary = FormularyDocument.parse(JSON.parse(formularyText));

type Cast = Parameters<typeof draft>;
const say = (...parts: Cast): Draft => draft(...parts);

/** Who the people of the shelter are, for its private side. */
export const shelterPeople: readonly PrivatePerson[] = [
  ['ines', 'Ines', ''],
  ['sol', 'Sol', ''],
  ['vera', 'Vera', 'Invented 1'],
].map(([id, name, licence]) => PrivatePerson.parse({ id, name, licence, contacts: [], withdrawn: false }));

/** An invented shelter of two sections, four people, a lot and a few kittens, with a signed protocol, from 1 March 2026. */
export function shelterLog(kittens = 3, zone = 'UTC') {
  const log = testLog({ zone });
  const start = at('2026-03-01', '08:00');
  log.add(
    [
      say('shelter-described', 'shelter:self', { name: 'Test nursery', zone, weightUnit: 'g', demo: false }, start),
      say('person-described', 'person:ines', { person: 'ines', role: 'volunteer' } as never, start),
      say('person-described', 'person:sol', { person: 'sol', role: 'supervisor' } as never, start),
      say('person-described', 'person:vera', { person: 'vera', role: 'medical' } as never, start),
      section('nursery', 'Nursery', 'clean-kittens', start),
      section('quarantine', 'Quarantine', 'quarantine', start),
      say('protocol-filed', 'document:starter', { protocol: starterProtocol }, start),
      say('formulary-filed', 'document:starter-formulary', { formulary: starterFormulary }, start),
      signed('protocol', starterProtocol.id, starterProtocol.version, start),
      signed('formulary', starterFormulary.id, starterFormulary.version, start),
      say(
        'lot-received',
        'lot:pyr-1',
        {
          of: { is: 'product', product: 'pyrantel-50' },
          lotText: '00417',
          expires: day('2026-12-31'),
          pieces: 40,
        } as never,
        start,
      ),
    ],
    'vera',
  );
  for (let index = 0; index < kittens; index += 1) {
    const name = `Kit ${index + 1}`;
    const body = kitten(name, '2026-01-20', {
      label: `00${index + 1}`,
      section: 'nursery' as never,
      kennel: `N${index + 1}`,
    });
    log.add([say('animal-taken-in', `animal:kit-${index + 1}`, body, at('2026-03-01', '10:00'))], 'sol');
  }
  return log;
}

const section = (id: string, name: string, rank: string, when: string): Draft =>
  say(
    'section-described',
    `section:${id}`,
    { section: id, name, rank, position: 0, kennels: ['N1', 'N2'], wear: [], leave: [], contactMinutes: 10 } as never,
    when,
  );

const signed = (document: 'protocol' | 'formulary', id: string, version: string, when: string): Draft =>
  say(
    'document-signed',
    `document:${id}`,
    { document, id, version, signer: 'Vera', licence: 'Invented 1', on: day('2026-03-01'), statement: 'For a test' },
    when,
  );

export const weighed = (kit: number, grams: number, when: string): Draft =>
  say('animal-weighed', `animal:kit-${kit}`, { grams, entered: `${grams} g` }, when);

export const wormed = (kit: number, when: string): Draft =>
  say(
    'treatment-given',
    `animal:kit-${kit}`,
    { schedule: 'roundworm', product: 'pyrantel-50', lot: 'pyr-1', volume_ul: 120, route: 'oral' } as never,
    when,
  );

/** A copy whose fields stand in another order, as another device may write them. */
export function reordered(record: LogRecord): LogRecord {
  const turn = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(turn);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value)
        .reverse()
        .map(([name, field]) => [name, turn(field)]),
    );
  };
  return turn(record) as LogRecord;
}
