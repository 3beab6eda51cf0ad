// The ward of the journey through orders in words: `node serve-words.mjs DATA PORT START`. Everything is invented.
import { doseWard } from './dose-ward.mjs';
import { serveWard } from './serve-ward.mjs';

const fresh = '2026-05-14T12:00:00.000Z';
const animals = [
  {
    id: 'lovage',
    born: '2026-02-26',
    at: fresh,
    grams: 743,
    order: 'doxycycline-10',
    terms: {
      name: 'Doxycycline for sneezing',
      amount: '10 mg per kg once a day with food',
      ends: { is: 'after-days', days: 10 },
    },
  },
  { id: 'mallow', born: '2026-03-12', at: fresh, grams: 500, order: 'mirtazapine-ointment-20' },
  { id: 'nettle', born: '2026-03-12', at: fresh, grams: 500, order: 'saline-0-9' },
  {
    id: 'orris',
    born: '2026-03-12',
    at: fresh,
    grams: 500,
    order: 'saline-0-9',
    terms: { amount: '8 mL under the skin' },
  },
  // Too young for its label: the words of the order stand beside the stop.
  {
    id: 'rue',
    born: '2026-03-12',
    at: fresh,
    grams: 500,
    order: 'maropitant-10',
    terms: { amount: 'half of what the label says' },
  },
  // A kitten whose weight is too old to dose on, and a grown cat whose weight is not.
  { id: 'parsley', born: '2026-03-12', at: '2026-05-02T09:00:00.000Z', grams: 900, order: null },
  { id: 'quince', born: '2023-05-01', at: '2026-05-02T09:00:00.000Z', grams: 4250, order: null },
];
await serveWard((documents) => doseWard({ ...documents, animals }));
