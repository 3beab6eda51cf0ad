import { lampCode } from '../../core/animal/lamp.js';
import { scheduleNamed } from '../../log/views/due/schedules.js';
import type { RoundLine } from '../../log/views/round/round.js';
import type { Shelter } from '../../log/views/shelter.js';
import { say } from '../../words/say.js';

/** What a line asks to be written by hand, by column. Where the answer is one of a few, they are printed to be ticked. */
export interface Asks {
  readonly time: readonly string[];
  readonly given: readonly string[];
  readonly lot: readonly string[];
}

/** A test asks for its times, lots and zones, a look with the lamp for what it showed, a chip for its scans and number. */
export function asksOf(shelter: Shelter, { action, schedule }: Pick<RoundLine, 'action' | 'schedule'>): Asks {
  const wanted: readonly string[] = scheduleNamed(shelter, schedule)?.satisfiedBy ?? [];
  const lamp = wanted.includes(lampCode) ? [say('ribbon.sheet.lamp')] : [];
  switch (action) {
    case 'test': {
      const kit = shelter.formulary?.kits.find((one) => one.tests.some((test) => wanted.includes(test)));
      return {
        time: [say('ribbon.sheet.test-times')],
        given: [...(kit?.zones ?? []).map((zone) => say('ribbon.sheet.test-zone', { zone: zone.name })), ...lamp],
        lot: [say('ribbon.sheet.test-lots')],
      };
    }
    case 'chip':
      return {
        time: [],
        given: [...lamp, say('ribbon.sheet.chip-before'), say('ribbon.sheet.chip-after')],
        lot: [say('ribbon.sheet.chip-number')],
      };
    case 'give':
    case 'weigh':
    case 'look':
      return { time: [], given: lamp, lot: [] };
  }
}
