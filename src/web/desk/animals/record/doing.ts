import type { Animal } from '../../../../core/animal/animal.js';

/** What can be done to an animal from its page, each on a sheet of its own. */
export type Doing = 'weigh' | 'observe' | 'hold' | 'order' | 'elsewhere' | 'move' | 'describe' | 'leave';

export interface DoProps {
  readonly animal: Animal;
  readonly onClose: () => void;
}
