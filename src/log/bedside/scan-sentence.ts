import type { Animal } from '../../core/animal/animal.js';
import type { SectionId } from '../../core/ids.js';
import type { SectionStop } from '../views/round/round.js';

type Where = 'not-on-round' | 'is' | 'other-section' | 'here' | 'here-not-on-round' | 'not-here';

/**
 * What is said of an animal whose chip was scanned where it is not opened. `at` is its section on the round, null when
 * the round has nothing for it; `door` is the section before whose door the team stands.
 */
export function whereItIs(
  animal: Pick<Animal, 'section'>,
  at: { readonly section: { readonly id: string }; readonly state: SectionStop['state'] } | null,
  door: SectionId | null,
): Where {
  if (at === null) return door !== null && animal.section === door ? 'here-not-on-round' : 'not-on-round';
  if (door !== null) return at.section.id === door ? 'here' : 'not-here';
  return at.state === 'inside' ? 'is' : 'other-section';
}
