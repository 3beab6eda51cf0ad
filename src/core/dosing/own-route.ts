import { derived } from '../derived.js';
import type { Route } from './exact-text.js';
import type { Product } from './formulary.js';

/** A product as an order has it go in: by another way its own place on the animal says nothing any more. */
export const byRoute = derived(
  (product: Product, route: Route | null): Product =>
    route === null || route === product.route ? product : { ...product, route, site: '', siteCode: null },
);
