import type { Dose } from '../../core/dosing/dose.js';
import { writeStrength } from '../../core/quantity/write.js';
import { say } from '../../words/say.js';
import { State } from './state.js';

/** Beside the volume, when it is that of another strength than the product's name says. */
export function OtherStrength({ dose }: { readonly dose: Pick<Dose, 'otherStrength'> }) {
  if (dose.otherStrength === null) return null;
  return (
    <p>
      <State tone="attention">{say('drawup.other-strength', { strength: writeStrength(dose.otherStrength) })}</State>
    </p>
  );
}
