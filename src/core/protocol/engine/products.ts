import type { ProductId } from '../../ids.js';
import type { Schedule } from '../document/document.js';
import type { Catalogue } from '../input.js';

/** Products in the order of the classes a schedule prefers, then in the order of the formulary. */
export function productsFor(schedule: Schedule, { products }: Catalogue): ProductId[] {
  const ids = schedule.satisfiedBy.flatMap((wanted) =>
    products.filter((product) => product.classes.includes(wanted)).map((product) => product.id),
  );
  return [...new Set(ids)];
}
