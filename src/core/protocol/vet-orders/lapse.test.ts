import { describe, expect, it } from 'vitest';
import { cat, catalogueOf, day, giving, once, protocolOf } from '../../../../test/support/protocol.js';
import { OrderTerms, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { RecordId } from '../../ids.js';
import type { ProtocolDocument } from '../document/document.js';
import { stoodAgainstOrder } from '../engine/stood-against.js';
import type { ProtocolInput } from '../input.js';
import { forecastOrders } from './order-forecast.js';
import { orderNow } from './order-now.js';

/** Times are those of Chicago, six hours behind UTC in March until the 8th, five after. */
const zone = 'America/Chicago';
const record = RecordId.parse('order-1');
const small = protocolOf(giving('drops', [once('only')]));
const protocol: ProtocolDocument = {
  ...small,
  countersign: { hours: 24, source: small.sources[0]?.id as never, standing: 'read', note: '' },
};
const terms = OrderTerms.parse({
  name: 'Eye drops',
  treat: { is: 'product', product: 'drops' },
  starts: '2026-03-05',
  timing: { is: 'times', times: ['08:00', '14:00', '20:00'] },
  ends: { is: 'when-ended' },
  vet: 'vera',
});

/** Told at 13:00 in Chicago on the 5th. */
const told = { readBack: true, at: '2026-03-05T19:00:00Z', zone };
const placed = (more: object = {}, by: ProtocolDocument | null = protocol) => {
  const written = { by: 'vera', writer: 'sol', told, answered: null, ...more } as PlacedOrder['written'];
  const order: PlacedOrder = { record, terms, ended: null, ...(written === undefined ? {} : { written }) };
  const input: ProtocolInput = {
    animal: { ...cat({ born: '2025-01-01' }), orders: [order] },
    formulary: catalogueOf('drops'),
  };
  return {
    on: (today: string) => forecastOrders(input, by, day(today))[0],
    now: (now: string) => orderNow(input, order, by, now, zone),
    given: (on: string, at: string) => stoodAgainstOrder(input, by, order, day(on), at),
  };
};

describe('an order told by telephone (Verifies: LOG-R220)', () => {
  it('is done until its hours are over, says so before, and not an instant after', () => {
    const order = placed();
    expect(order.on('2026-03-05')?.because).toMatchObject({
      say: 'due.order.lapses',
      with: { at: { instant: '2026-03-06T19:00:00.000Z' } },
    });
    // 08:05 the next morning may be done; 14:05 comes an hour after the 24 hours.
    expect(order.now('2026-03-06T14:05:00Z')).toMatchObject({ mayDo: { at: '08:00' } });
    expect(order.now('2026-03-06T18:59:59.999Z').mayDo).not.toBeNull();
    expect(order.now('2026-03-06T19:00:00Z').mayDo).toBeNull();
    expect(order.now('2026-03-06T20:05:00Z').mayDo).toBeNull();
  });

  it('stands on hold as lapsed from the day after, by the clock of whoever heard it', () => {
    const order = placed();
    expect(order.on('2026-03-06')?.status).not.toBe('on-hold');
    expect(order.on('2026-03-07')).toMatchObject({ status: 'on-hold', hold: { code: 'order-lapsed', until: null } });
    // Told at 22:00 on the 5th, which is the 6th in UTC: it lapses at 22:00 on the 6th.
    const late = placed({ told: { ...told, at: '2026-03-06T04:00:00Z' } });
    expect(late.on('2026-03-06')?.status).not.toBe('on-hold');
    expect(late.on('2026-03-07')?.hold?.code).toBe('order-lapsed');
  });

  it('what was given for it after that is told as given against it', () => {
    expect(placed().given('2026-03-06', '2026-03-06T18:30:00Z')).toBeNull();
    expect(placed().given('2026-03-06', '2026-03-06T19:30:00Z')?.why.say).toBe('due.hold.order-lapsed');
  });

  it.each([
    ['countersigned, also after it had lapsed', { answered: { at: '2026-03-07T10:00:00Z', says: 'mine' } }, protocol],
    ['under a protocol that sets no time', {}, { ...small, countersign: null }],
    ['without a protocol', {}, null],
  ])('does not lapse %s', (_, more, by) => {
    const order = placed(more, by);
    expect(order.now('2026-03-08T14:05:00Z').mayDo).not.toBeNull();
    expect(order.on('2026-03-08')?.status).not.toBe('on-hold');
  });

  it('of the veterinarian’s own hand does not lapse', () => {
    const own: PlacedOrder = { record, terms, ended: null };
    const input: ProtocolInput = { animal: { ...cat({}), orders: [own] }, formulary: catalogueOf('drops') };
    expect(forecastOrders(input, protocol, day('2026-03-20'))[0]?.status).not.toBe('on-hold');
    expect(orderSchedule(record)).toBe('order-order-1');
  });
});
