import { useState } from 'react';
import type { Proof, SecondLook } from '../../../core/bedside/weighing.js';
import { say } from '../../../words/say.js';
import { usePerson } from '../../store/here.js';
import { Tick } from './choices.js';

/** Asked where two weighings agree on a weight far from the last one: one scale alone does not prove it. */
export function OtherScale({
  look,
  is,
  onChange,
}: {
  look: SecondLook | null;
  is: boolean;
  onChange: (is: boolean) => void;
}) {
  return is || look?.beyond === 'jump' ? (
    <Tick
      label={say('parts.weight.other-scale')}
      note={say('parts.weight.other-scale-why')}
      value={is}
      onChange={onChange}
    />
  ) : null;
}

/** Whether another scale is ticked, and what stands behind a weight: that, or who weighs. */
export function useOtherScale() {
  const [other, setOther] = useState(false);
  const person = usePerson();
  const proof: Proof = person?.role === 'medical' ? 'medical' : other ? 'other-scale' : null;
  return { other, setOther, proof };
}

/** What a weighing says of it. */
export const otherScale = (is: boolean): { readonly otherScale?: true } => (is ? { otherScale: true } : {});
