import type { Lot, Shelter } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { kitName, productName, syringeName } from '../../told/names.js';

/** What a lot is of, in words. */
export function lotOf(shelter: Shelter, lot: Pick<Lot, 'of'>): string {
  const { of } = lot;
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
