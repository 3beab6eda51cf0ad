import { signInRoutes } from '../../api/routes-sign-in.js';
import { sync } from '../store/exchange.js';

/** What is asked about signing in and devices: it comes with these screens, not with the first page. */
export const signing = sync.client.asks(signInRoutes);
