import { useCallback, useEffect, useState } from 'react';
import type { AnimalId } from '../../core/ids.js';
import { sync } from '../store/exchange.js';
import { store, useWorld } from './here.js';

/** How far fetching has come; `here` says as of when the history of an animal that left is whole. */
export type Opened =
  | { readonly is: 'not-needed' }
  | { readonly is: 'fetching' }
  | { readonly is: 'here'; readonly asOf: string }
  | { readonly is: 'out-of-reach' };

/**
 * An animal that left is fetched whole when its page is opened, and held for as long as the page is. One in care is on
 * the device already.
 */
export function useOpened(animal: AnimalId): Opened {
  const world = useWorld();
  const inCare = world.animals.get(animal)?.left === null;
  const [opened, setOpened] = useState<Opened>({ is: 'not-needed' });
  useEffect(() => {
    if (inCare) {
      setOpened({ is: 'not-needed' });
      return undefined;
    }
    const close = store.lookAt(animal);
    let gone = false;
    setOpened({ is: 'fetching' });
    void sync.openAnimal(animal).then((answer) => {
      if (gone) return;
      setOpened(answer.asOf === undefined ? { is: 'out-of-reach' } : { is: 'here', asOf: answer.asOf });
    });
    return () => {
      gone = true;
      close();
    };
  }, [animal, inCare]);
  return opened;
}

export interface Absent {
  /** How many of them are not on this device. */
  readonly count: number;
  readonly state: 'idle' | 'fetching' | 'out-of-reach';
  readonly fetchAll: () => void;
}

/** Animals of an old list, of which some have left and are not on this device; fetched when somebody asks for them. */
export function useAbsent(animals: readonly AnimalId[]): Absent {
  const world = useWorld();
  const [state, setState] = useState<Absent['state']>('idle');
  const [asked, setAsked] = useState<readonly AnimalId[]>([]);
  const absent = [...new Set(animals)].filter((one) => !world.animals.has(one));
  useEffect(() => {
    const closes = asked.map((one) => store.lookAt(one));
    return () => {
      for (const close of closes) close();
    };
  }, [asked]);
  const fetchAll = useCallback(() => {
    setAsked(absent);
    setState('fetching');
    void (async () => {
      for (const one of absent) {
        if (!(await sync.openAnimal(one)).reached) return setState('out-of-reach');
      }
      setState('idle');
    })();
  }, [absent]);
  return { count: absent.length, state, fetchAll };
}
