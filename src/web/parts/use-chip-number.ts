import { useRef } from 'react';
import type { ChipReading } from '../../core/chip/read-chip.js';
import { readWhole } from '../../core/chip/whole-number.js';
import type { Outcome } from '../../core/said.js';
import { chipsOf } from '../../log/views/chips/chip-pack.js';
import { store } from '../store/here.js';

/** Reads chip numbers one after the other: a piece of one is never taken, a short one only when it came twice. */
export function useChipNumber(): (raw: string) => Outcome<ChipReading> {
  const before = useRef<string | null>(null);
  return (raw) => {
    const reading = readWhole(raw, chipsOf(store.world.get()).known, before.current);
    before.current = reading.ok ? reading.value.code : String(reading.why.with?.code ?? '');
    return reading;
  };
}
