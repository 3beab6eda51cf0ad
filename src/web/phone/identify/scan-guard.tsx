import { useState } from 'react';
import type { Said } from '../../../core/said.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { useScan } from '../../scan/use-scan.js';
import { Trouble } from '../around/bits.js';
import { useIdentityScan } from './identity-scan.js';
import { BadScan } from './scan-answer.js';

/** A chip read in the middle of the work is compared too; one that is not this animal's stops everything. */
export function ScanGuard({ stop }: { stop: AnimalStop }) {
  const [bad, setBad] = useState<Said | null>(null);
  const { heard, state } = useIdentityScan(stop, setBad);
  useScan((text) => heard(text));
  return (
    <>
      <Trouble state={state} />
      <BadScan why={bad} />
    </>
  );
}
