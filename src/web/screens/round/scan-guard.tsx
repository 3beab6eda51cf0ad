import { useState } from 'react';
import type { Said } from '../../../core/said.js';
import type { AnimalStop } from '../../../log/views/round.js';
import { say } from '../../../words/say.js';
import { Notice } from '../../parts/state.js';
import { useScan } from '../../scan/use-scan.js';
import { Trouble } from './bits.js';
import { useIdentityScan } from './identity-scan.js';

/** A chip read in the middle of the work is compared too; one that is not this animal's stops everything. */
export function ScanGuard({ stop }: { stop: AnimalStop }) {
  const [bad, setBad] = useState<Said | null>(null);
  const { heard, state } = useIdentityScan(stop, (why) => {
    setBad(why);
    // What was wrong stands at the head of the screen, wherever it was scrolled to.
    if (why !== null) window.scrollTo(0, 0);
  });
  useScan((text) => heard(text));
  return (
    <>
      <Trouble state={state} />
      {bad === null ? null : (
        <Notice tone="stop" live="alert">
          {say(bad)}
        </Notice>
      )}
    </>
  );
}
