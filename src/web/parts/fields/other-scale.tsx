import { useState } from 'react';
import type { SecondLook } from '../../../core/bedside/weighing.js';
import { say } from '../../../words/say.js';
import { usePerson } from '../../store/here.js';
import { Tick } from './choices.js';

/** Asked where two weighings agree on what no cat of that age weighs: one scale alone does not prove it. */
export function OtherScale({
  look,
  is,
  onChange,
}: {
  look: SecondLook | null;
  is: boolean;
  onChange: (is: boolean) => void;
}) {
  return is || look?.beyond === true ? (
    <Tick
      label={say('parts.weight.other-scale')}
      note={say('parts.weight.other-scale-why')}
      value={is}
      onChange={onChange}
    />
  ) : null;
}

/** Whether another scale is ticked, and whether a weight is vouched for by that or by who weighs. */
export function useOtherScale() {
  const [other, setOther] = useState(false);
  const person = usePerson();
  return { other, setOther, vouched: other || person?.role === 'medical' };
}

/** What a weighing says of it. */
export const otherScale = (is: boolean): { readonly otherScale?: true } => (is ? { otherScale: true } : {});
