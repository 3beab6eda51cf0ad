import { useEffect, useMemo, useState } from 'react';
import type { AlreadyThere } from '../../../core/intake/plan-import.js';
import { alreadyThere } from '../../../log/commands/from-file.js';
import { sync } from '../../store/exchange.js';
import { useWorld } from '../../store/here.js';

/**
 * Every animal on record, as rows of a file are compared with them: those of this device, and those that left, which are
 * on the server. Null until they have come, `out-of-reach` when they cannot: a row could then come in twice.
 */
export function useOnRecord(): readonly AlreadyThere[] | 'fetching' | 'out-of-reach' {
  const world = useWorld();
  const [left, setLeft] = useState<
    readonly (AlreadyThere & { readonly animal: string })[] | 'fetching' | 'out-of-reach'
  >('fetching');
  useEffect(() => {
    let over = false;
    void sync.client.animals({ inCare: 'no' }).then((answer) => {
      if (over) return;
      setLeft(
        answer.ok
          ? answer.value.animals.map(({ animal, originKey: key, label, name, chip, arrivedOn, leftOn }) => ({
              animal,
              key,
              label,
              name,
              chip,
              arrivedOn,
              leftOn,
            }))
          : 'out-of-reach',
      );
    });
    return () => {
      over = true;
    };
  }, []);
  return useMemo(() => {
    if (typeof left === 'string') return left;
    const here = new Set<string>(world.animals.keys());
    return [...alreadyThere(world), ...left.filter(({ animal }) => !here.has(animal))];
  }, [world, left]);
}
