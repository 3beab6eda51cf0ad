import { useEffect, useRef } from 'react';
import { type ScanTaker, scans } from './scan-queue.js';

/** While this part of the screen is shown, scans come here; `null` lets them go to whoever asked before. */
export function useScan(taker: ScanTaker | null): void {
  const latest = useRef(taker);
  latest.current = taker;
  const wanted = taker !== null;
  useEffect(() => (wanted ? scans.take((raw) => latest.current?.(raw)) : undefined), [wanted]);
}
