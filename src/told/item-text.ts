import type { After } from '../core/said.js';
import { say } from '../words/say.js';

/**
 * What to put on or to do at a door, in words: catalogue keys and plain text both stand in a section's lists. The keys are
 * put together here, so that the words come with the page that says them.
 */
export function itemText(item: string): string {
  const [, list, rest] = /^(wear|leave)\.([a-z-]+)$/.exec(item) ?? [];
  if (list === 'wear') return say(`wear.${rest as After<'wear.'>}`);
  return list === 'leave' ? say(`leave.${rest as After<'leave.'>}`) : item;
}
