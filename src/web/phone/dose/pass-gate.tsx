import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Animal } from '../../../core/animal/animal.js';
import { wayPast, wordOpens } from '../../../core/bedside/gate-ways.js';
import { addDays } from '../../../core/calendar.js';
import type { Dose } from '../../../core/dosing/dose.js';
import { type Gate, type GateCode, isLabelStop } from '../../../core/dosing/gate.js';
import type { PersonId, ProductId } from '../../../core/ids.js';
import { noteObservation } from '../../../log/commands/animal.js';
import { openGates } from '../../../log/commands/gate.js';
import type { GatePassed } from '../../../log/kinds/treatment.js';
import { observationWords } from '../../../told/codes.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { weighPath } from '../../parts/round-paths.js';
import { Sentence } from '../../parts/sentence.js';
import { Sheet } from '../../parts/sheet.js';
import { usePeople } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';

export interface Passed extends GatePassed {
  readonly gate: GateCode;
}

const stopsOf = (dose: Dose, passed: readonly Passed[]): Gate[] =>
  dose.gates.filter((gate) => gate.severity === 'stop' && !passed.some((one) => one.gate === gate.code));

/** True while a stop stands that nobody has opened. */
export const stillStopped = (dose: Dose, passed: readonly Passed[]): boolean => stopsOf(dose, passed).length > 0;

const reasons = ['by-telephone', 'in-person', 'in-writing'] as const;

/** How long a word may count: today, a week, a month; the last day is named. */
const counts = [0, 7, 30] as const;

interface PassProps {
  readonly product: ProductId;
  readonly dose: Dose;
  readonly animal: Animal;
  /** Of an order's line a stop of the label is opened by the order alone. */
  readonly byOrder: boolean;
  readonly passed: readonly Passed[];
  readonly onPassed: (passed: readonly Passed[]) => void;
  readonly onClose: () => void;
}

/** One stop after the other: do it right, or whose word opens it and how it was given. */
export function PassSheet({ product, dose, animal, byOrder, passed, onPassed, onClose }: PassProps) {
  const { round, today } = useRound();
  const [, go] = useLocation();
  const medical = usePeople().filter((person) => person.active && person.licence !== '');
  const [by, setBy] = useState<PersonId | null>(null);
  const [reason, setReason] = useState<(typeof reasons)[number] | null>(null);
  const [words, setWords] = useState('');
  const [days, setDays] = useState<(typeof counts)[number]>(0);
  const { state, save } = useSave();
  const gate = stopsOf(dose, passed)[0];
  if (gate === undefined) return null;
  const way = byOrder && isLabelStop(gate.code) ? 'order' : wayPast(gate.code);
  const answer = async (state: 'present' | 'absent'): Promise<void> => {
    const saved = await save(noteObservation(animal.id, { code: gate.asks ?? '', state, on: today, round }, now()));
    if (saved !== null) onClose();
  };
  const vet = medical.find((person) => person.id === by);
  const pass = async (): Promise<void> => {
    if (vet === undefined || reason === null) return;
    const until = addDays(today, days);
    const word = { product, gates: [gate.code], how: reason, reason: words.trim(), until, round };
    const saved = await save(openGates(vet, animal.id, word, today, now()));
    if (saved === null) return;
    const next = [...passed, { gate: gate.code, how: reason, reason: words.trim().slice(0, 300), by: vet.id }];
    onPassed(next);
    setBy(null);
    setReason(null);
    setWords('');
    if (!stillStopped(dose, next)) onClose();
  };
  return (
    <Sheet title={say(`gate.${gate.code}`)} open onClose={onClose}>
      <p>
        <Sentence what={gate.why} />
      </p>
      <p>{say(`round.gate.way.${way}`)}</p>
      {gate.asks === undefined ? null : (
        <div className="act-pair">
          <Act size="big" onAct={() => answer('absent')}>
            {say('round.gate.is-not-so', { what: observationWords(gate.asks) })}
          </Act>
          <Act size="big" onAct={() => answer('present')}>
            {say('round.gate.is-so', { what: observationWords(gate.asks) })}
          </Act>
        </div>
      )}
      {wordOpens(way) ? (
        <>
          <ChooseOne
            label={say('round.gate.whose-word')}
            options={medical.map((person) => ({ id: person.id, label: person.name, note: person.licence }))}
            value={by}
            onChange={setBy}
            big
          />
          <ChooseOne
            label={say('round.gate.how')}
            options={reasons.map((id) => ({ id, label: say(`round.gate.reason.${id}`) }))}
            value={reason}
            onChange={setReason}
            big
          />
          <Field label={say('drawup.word.why')} value={words} onChange={setWords} lines maxLength={240} required />
          <ChooseOne
            label={say('drawup.word.until')}
            options={counts.map((count) => ({
              id: String(count),
              label:
                count === 0
                  ? say('drawup.word.today')
                  : say('drawup.word.days', { until: { date: addDays(today, count) } }),
            }))}
            value={String(days)}
            onChange={(id) => setDays(counts.find((count) => String(count) === id) ?? 0)}
            flow
          />
          <Trouble state={state} />
        </>
      ) : null}
      <div className="act-pair">
        {way === 'weigh' ? (
          <Act main size="big" onAct={() => go(weighPath(round, animal.id))}>
            {say('round.gate.weigh-now')}
          </Act>
        ) : null}
        {wordOpens(way) ? (
          <Act
            stop
            size="big"
            why={by === null || reason === null || words.trim() === '' ? say('round.why.word') : null}
            onAct={pass}
          >
            {say('round.gate.pass')}
          </Act>
        ) : null}
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
