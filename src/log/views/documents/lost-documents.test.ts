import { describe, expect, test } from 'vitest';
import { at } from '../../../../test/support/log.js';
import { shelterLog } from '../../../../test/support/shelter-log.js';
import type { PersonId } from '../../../core/ids.js';
import { withdrawRecord } from '../../commands/shelter.js';
import { signDocument } from '../../commands/signing.js';
import type { LogRecord } from '../../record.js';
import { unreadOf } from '../../unread.js';
import { type Shelter, whyNoDocuments } from '../shelter.js';
import { applyToWorld, emptyWorld } from '../world.js';
import { lostInWords } from './lost-documents.js';

const withSeq = (records: readonly LogRecord[]): LogRecord[] =>
  records.map((one, index) => ({ ...one, seq: index + 1 }));
const shelterOf = (records: readonly LogRecord[], broken: (record: LogRecord) => boolean): Shelter => {
  const placed = withSeq(records);
  const unread = placed.filter(broken).map(unreadOf);
  return applyToWorld(
    emptyWorld,
    placed.filter((one) => !broken(one)),
    unread,
  ).shelter;
};
const isSigned = (document: string) => (record: LogRecord) =>
  record.kind === 'document-signed' && record.body.document === document;

describe('records about documents that cannot be read (Verifies: LOG-R40)', () => {
  test.each(['protocol', 'formulary'] as const)('the signature of the %s', (document) => {
    const shelter = shelterOf(shelterLog(2).records, isSigned(document));
    expect(lostInWords(shelter)?.say).toBe(`log.unsure-${document}`);
    expect(shelter[document]).toBeNull();
  });
  test('signed again, it is in force', () => {
    const log = shelterLog(2);
    const first = log.records.find(isSigned('protocol'));
    const damaged = shelterOf(log.records, (one) => one === undefined || one.id === first?.id);
    const vera = damaged.people.find(({ id }) => id === ('vera' as PersonId));
    const [version] = damaged.protocols;
    if (vera === undefined || version === undefined) throw new Error('no veterinarian or no protocol');
    const { id, version: number } = version.document;
    const again = signDocument(
      damaged,
      { ...vera, name: 'Vera', licence: 'Invented 1' },
      { document: 'protocol', id, version: number, on: '2026-03-03' as never, statement: '' },
      at('2026-03-03'),
    );
    if (!again.ok) throw new Error(again.why.say);
    log.add(again.value, 'vera');
    const shelter = shelterOf(log.records, (one) => one.id === first?.id);
    expect([lostInWords(shelter), shelter.protocol?.version]).toEqual([null, number]);
  });
});

test('a filed version that was taken back is not damaged: nothing is signed (Verifies: LOG-R41)', () => {
  const log = shelterLog(2);
  const filed = log.records.find(({ kind }) => kind === 'protocol-filed');
  if (filed === undefined) throw new Error('no protocol');
  const withdrawal = withdrawRecord(filed, { reason: 'Filed by mistake.' }, at('2026-03-03'));
  if (!withdrawal.ok) throw new Error(withdrawal.why.say);
  log.add(withdrawal.value, 'vera');
  const shelter = shelterOf(log.records, () => false);
  expect([shelter.protocol, shelter.lost, whyNoDocuments(shelter)?.say]).toEqual([null, [], 'log.nothing-signed']);
});
