import { useEffect, useState } from 'react';
import { type ChangedOf, changedSince, type InTheSyringe } from '../../../core/bedside/drawn-up.js';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product } from '../../../core/dosing/formulary.js';
import { writeStrength, writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { BigButton } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { forgetShown, keepShown, shownBefore } from './shown-before.js';

/** What the card says is to be in the syringe, or in the fingers. */
export function inTheSyringe(product: Product, dose: Dose, lot: string): InTheSyringe {
  const { drawn, places } = dose;
  const volume = drawn === null ? dose.exact_ul : drawn.volume_ul;
  const strength = dose.otherStrength ?? product.ingredients[0]?.mg_per_ml ?? null;
  return {
    product: product.name,
    amount:
      dose.inWords ??
      (dose.pieces !== null
        ? say(dose.pieces)
        : volume === null
          ? ''
          : `${places === 1 ? '' : `${places} × `}${writeVolume(volume)}`),
    mark: drawn?.mark ?? '',
    syringe: drawn?.syringeName ?? '',
    strength: strength === null ? '' : writeStrength(strength),
    lot,
  };
}

export interface DrawnUp {
  /** Differs from what this device showed before, and nobody has confirmed it. */
  readonly changes: readonly ChangedOf[];
  readonly confirm: () => void;
  /** The person at this card is about to choose something else on it: that is no change to be asked about. */
  readonly byHand: () => void;
}

/**
 * Holds the card against what it showed before, also before a reload or another page. `card` is null while a stop hides
 * its figures.
 */
export function useDrawnUp(round: string, line: string, card: InTheSyringe | null): DrawnUp {
  const [, again] = useState(0);
  const before = shownBefore(round, line);
  const changes = card === null || before === null ? [] : changedSince(before, card);
  const first = card !== null && before === null;
  // After every drawing: the one before may have been forgotten since, by a choice on the card.
  useEffect(() => {
    if (first) keepShown(round, line, card);
  });
  return {
    changes,
    confirm: () => {
      if (card !== null) keepShown(round, line, card);
      again((count) => count + 1);
    },
    byHand: () => {
      if (changes.length === 0) forgetShown(round, line);
    },
  };
}

/** Stands instead of "Given" until the new figure is in the syringe. */
export function DrawAgain({ changes, amount, onDrawn }: DrawAgainProps) {
  const amounts = changes.find(({ what }) => what === 'amount');
  return (
    <>
      <Notice tone="stop" live="alert">
        <ul className="plain">
          {changes
            .filter(({ what, now }) => what !== 'mark' || amounts === undefined || amounts.now !== now)
            .map(({ what, before, now }) => (
              <li key={what}>
                {say(`round.drawn-up.${what}`, {
                  before: before === '' ? say('round.drawn-up.nothing') : before,
                  now: now === '' ? say('round.drawn-up.nothing') : now,
                })}
              </li>
            ))}
        </ul>
        {say('round.drawn-up.again')}
      </Notice>
      <BigButton onAct={onDrawn}>{say('round.drawn-up.confirm', { amount })}</BigButton>
    </>
  );
}

interface DrawAgainProps {
  readonly changes: readonly ChangedOf[];
  readonly amount: string;
  readonly onDrawn: () => void;
}
