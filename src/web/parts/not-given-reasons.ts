import { NotGivenReason } from '../../log/kinds/treatment.js';
import { say } from '../../words/say.js';
import type { Option } from './fields/choices.js';

/** What stands in the list to choose from; that a chip was read has its own button, where it was read. */
export const reasonOptions = (now: NotGivenReason | null = null): Option<NotGivenReason>[] =>
  NotGivenReason.options
    .filter((id) => id !== 'chip-read' || id === now)
    .map((id) => ({ id, label: say(`not-given.${id}`) }));
