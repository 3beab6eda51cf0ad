import type { Animal } from '../../../core/animal/animal.js';
import { holdsBack } from '../../../core/bedside/gate-ways.js';
import { amountOf } from '../../../core/dosing/amount.js';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product } from '../../../core/dosing/formulary.js';
import type { LotId, PersonId } from '../../../core/ids.js';
import { dueAtOf } from '../../../log/bedside/order-of-line.js';
import { give } from '../../../log/commands/round.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { now } from '../../clock.js';
import { afterDose_ms, rest } from '../../parts/rest.js';
import { usePerson } from '../../store/here.js';
import { type Save, useSave } from '../../store/save.js';
import { stillToDo, useRound } from '../around/use-round.js';
import type { Hand } from './in-hand.js';
import type { Passed } from './pass-gate.js';

/** Everything on the screen at the moment of the press. */
export interface OnScreen {
  readonly product: Product;
  readonly dose: Dose;
  readonly lot: LotId | null;
  readonly lotText: string;
  /** The box that the syringe came out of. */
  readonly syringeLot: LotId | null;
  readonly passed: readonly Passed[];
  readonly weighing: Animal['weighings'][number] | null;
  /** The vial in the hand: made up when, diluted by which recipe. */
  readonly hand: Hand;
}

/** What really went in, when it was not what was worked out. */
export interface ReallyGiven {
  readonly volume_ul: number | null;
  readonly pieces: string;
  readonly outcome: 'taken' | 'partly-taken' | 'not-taken';
}

interface Give {
  readonly state: Save['state'];
  readonly asDrawn: (what: OnScreen) => Promise<void>;
  /** Answers true once it is recorded. */
  readonly other: (what: OnScreen, given: ReallyGiven) => Promise<boolean>;
}

/** Records one treatment of a line, once: a line that is done by the time of the press gets no second record. */
export function useGive(stop: AnimalStop, line: RoundLine): Give {
  const { round, shelter } = useRound();
  const { state, save } = useSave();
  const person = usePerson();
  const record = async (what: OnScreen, given: ReallyGiven): Promise<boolean> => {
    if (holdsBack(what.dose.gates, what.passed).length > 0) return false;
    if (!stillToDo(round, line)) return true;
    const at = now();
    const dueAt = dueAtOf(stop.animal, shelter, line.schedule, at);
    const body = { ...bodyOf(what, given, line, round, shelter.protocol), dueAt };
    const saved = await save(give(stop.animal.id, body, at));
    if (saved !== null) rest(afterDose_ms);
    return saved !== null;
  };
  return {
    state,
    asDrawn: async (what) => {
      await record(what, {
        volume_ul: what.dose.total_ul ?? what.dose.exact_ul,
        pieces: piecesOf(what.product, what.dose.grams),
        outcome: 'taken',
      });
    },
    other: (what, given) => record({ ...what, passed: [...what.passed, ...unopened(what, person?.id ?? null)] }, given),
  };
}

/** Stops that stood when it was given all the same: the fact is kept, and the desk sees that nobody had opened them. */
const unopened = ({ dose, passed }: OnScreen, by: PersonId | null): Passed[] =>
  by === null
    ? []
    : dose.gates
        .filter((gate) => gate.severity === 'stop' && !passed.some((one) => one.gate === gate.code))
        .map((gate) => ({ gate: gate.code, how: 'no-word' as const, by }));

/** Stops that a veterinarian's word for this animal has opened, with the word that did. */
const byWord = (dose: Dose, passed: readonly Passed[]): Passed[] =>
  dose.gates.flatMap(({ code, passedBy }) =>
    passedBy === null || !('record' in passedBy) || passed.some((one) => one.gate === code)
      ? []
      : [
          {
            gate: code,
            how: 'on-record' as const,
            word: passedBy.record,
            reason: passedBy.reason.slice(0, 300),
            by: passedBy.by,
          },
        ],
  );

/** Tablets or tubes as the formulary writes them, empty for what goes by volume. */
export function piecesOf(product: Product, grams: number | null): string {
  const amount = amountOf(product, grams);
  return amount.ok ? amount.amount.pieces : '';
}

function bodyOf(
  { product, dose, lot, lotText, syringeLot, passed, weighing, hand }: OnScreen,
  given: ReallyGiven,
  line: RoundLine,
  round: string,
  protocol: { readonly id: string; readonly version: string } | null,
): BodyInput<'treatment-given'> {
  return {
    schedule: line.schedule,
    product: product.id,
    lot,
    lotText,
    volume_ul: given.volume_ul,
    pieces: given.volume_ul === null ? given.pieces : '',
    syringe: dose.drawn?.syringe ?? null,
    syringeLot,
    strength_mg_per_ml: dose.otherStrength,
    madeUp: hand.madeUp,
    dilution: dose.dilution,
    places: dose.places,
    planned_ul: dose.total_ul ?? dose.exact_ul,
    weight: dose.grams === null ? null : (weighing?.record ?? null),
    grams: dose.grams,
    route: product.route,
    site: product.site.slice(0, 80),
    outcome: given.outcome,
    passed: [...passed, ...byWord(dose, passed)],
    protocol: protocol === null ? null : { id: protocol.id, version: protocol.version },
    round,
  };
}
