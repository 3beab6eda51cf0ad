// The ward of the journey through an order as a figure: `node serve-figure.mjs DATA PORT START`. Everything is invented.
import { doseWard } from './dose-ward.mjs';
import { serveWard } from './serve-ward.mjs';

const animals = [
  { id: 'nettle', born: '2026-03-12', at: '2026-05-14T12:00:00.000Z', grams: 500, order: null },
  { id: 'orris', born: '2026-03-12', at: '2026-05-14T12:00:00.000Z', grams: 520, order: null },
];
await serveWard((documents) => doseWard({ ...documents, animals }));
