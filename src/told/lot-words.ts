import { said } from '../core/said.js';
import type { Lot, Shelter } from '../log/views/shelter.js';
import { say } from '../words/say.js';
import { kitName, productName, syringeName } from './names.js';

/** What a lot is of, in words. */
export function lotOf(shelter: Shelter, lot: Pick<Lot, 'of' | 'prepared'>): string {
  const { of } = lot;
  if (lot.prepared !== null) return say('desk.prepare-syringes.of', { with: lot.prepared.with });
  switch (of.is) {
    case 'product':
      return productName(shelter, of.product);
    case 'kit':
      return kitName(shelter, of.kitType);
    case 'chips':
      return say('desk.stock.chips');
    case 'syringe':
      return syringeName(shelter, of.syringe);
    case 'supply':
      return of.name;
  }
}

export const lotNameOf = (lot: Pick<Lot, 'lotText' | 'id'>): string =>
  lot.lotText === '' ? lot.id.slice(0, 8) : lot.lotText;

/** Who made a lot of syringes ready, when, and until when they keep; nothing for any other lot. */
export function preparedText({ prepared, receivedAt }: Pick<Lot, 'prepared' | 'receivedAt'>): string {
  if (prepared === null) return '';
  const { by, writtenBy, keepsUntil } = prepared;
  return say('desk.prepare-syringes.made', {
    by: { person: by },
    at: { instant: receivedAt },
    writer: writtenBy === undefined ? '' : said('desk.prepare-syringes.writer', { writer: { person: writtenBy } }),
    until:
      keepsUntil === null
        ? said('desk.told.keeps-unsaid')
        : said('desk.told.keeps-until', { until: { instant: keepsUntil } }),
  });
}
