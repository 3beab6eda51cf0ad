import { useState } from 'react';
import { useLocation } from 'wouter';
import type { PersonId } from '../../../core/ids.js';
import { correct } from '../../../log/commands/animal.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { LogRecord } from '../../../log/record.js';
import type { TwoChips } from '../../../log/views/chips/chip-trust.js';
import { effective } from '../../../log/views/effective.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { TwoNumbers } from '../../parts/fields/two-numbers.js';
import { sectionPath } from '../../parts/round-paths.js';
import { Sheet } from '../../parts/sheet.js';
import { usePeople } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Acts, Pair, Trouble } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';
import { ScanOpens } from './scan-opens.js';

interface Props {
  readonly stop: AnimalStop;
  readonly chips: TwoChips;
  /** Scans the animal once more; null where the round has no line for it. */
  readonly onAgain: (() => void) | null;
}

/** The stop that stays: two numbers, left to the desk. Nothing more is given until it is answered. */
export function TwoChipsStand({ stop, chips, onAgain }: Props) {
  const { view, round } = useRound();
  const [asking, setAsking] = useState(false);
  const [, go] = useLocation();
  const { animal } = stop;
  const name = animal.name || animal.label;
  const section = stopOf(view, animal.id)?.at.section;
  return (
    <section className="stop-screen" aria-labelledby="two-chips-title">
      <ScanOpens />
      <div className="stop-head">
        <h1 id="two-chips-title">
          <span aria-hidden="true">■ </span>
          {say('round.two-chips.title', { name })}
        </h1>
        <p>{say('round.two-chips.what', { name })}</p>
      </div>
      <div className="round-body">
        <TwoNumbers
          numbers={[
            { word: say('round.chip.word-on-record', { name }), code: chips.own },
            { word: say('round.chip.word-read', { name }), code: chips.other },
          ]}
        />
      </div>
      <Acts>
        <Act main size="big" onAct={() => go(sectionPath(round, section?.id ?? ''))}>
          {say('round.to-section', { section: section?.name ?? '' })}
        </Act>
        <Pair>
          {onAgain === null ? null : (
            <Act size="mid" onAct={onAgain}>
              {say('round.finished.scan-again')}
            </Act>
          )}
          <Act size="mid" onAct={() => setAsking(true)}>
            {say('round.two-chips.word')}
          </Act>
        </Pair>
      </Acts>
      {asking ? <WordSheet stop={stop} onClose={() => setAsking(false)} /> : null}
    </section>
  );
}

type Word = NonNullable<BodyInput<'chip-scanned'>['word']>;
const ways = ['by-telephone', 'in-person', 'in-writing'] as const satisfies readonly Word['how'][];

/** Whose word it is to go on, how it came and why: it goes on the record of the scan, and the flag stays. */
function WordSheet({ stop, onClose }: { stop: AnimalStop; onClose: () => void }) {
  const { world } = useRound();
  const { animal } = stop;
  const people = usePeople().filter(({ active, role }) => active && (role === 'medical' || role === 'supervisor'));
  const [by, setBy] = useState<PersonId | null>(null);
  const [how, setHow] = useState<Word['how'] | null>(null);
  const [reason, setReason] = useState('');
  const { state, save } = useSave();
  const scan = effective(world.bySubject.get(`animal:${animal.id}`) ?? []).find(
    (record): record is LogRecord<'chip-scanned'> =>
      record.kind === 'chip-scanned' && record.id === animal.chip?.differs?.scan,
  );
  const done = async (): Promise<void> => {
    if (scan === undefined || by === null || how === null || reason.trim() === '') return;
    const word = { by, how, reason: reason.trim() };
    const saved = await save(correct(scan, 'chip-scanned', { ...scan.body, word }));
    if (saved !== null) onClose();
  };
  return (
    <Sheet title={say('round.two-chips.word')} open onClose={onClose}>
      <p>{say('round.two-chips.word-what')}</p>
      <ChooseOne
        label={say('round.gate.whose-word')}
        options={people.map(({ id, name }) => ({ id, label: name }))}
        value={by}
        onChange={setBy}
        big
      />
      <ChooseOne
        label={say('round.gate.how')}
        options={ways.map((id) => ({ id, label: say(`round.gate.reason.${id}`) }))}
        value={how}
        onChange={setHow}
        big
      />
      <Field label={say('round.why')} value={reason} onChange={setReason} lines maxLength={240} required />
      <Trouble state={state} />
      <div className="act-pair">
        <Act
          stop
          size="big"
          why={by === null || how === null || reason.trim() === '' ? say('round.why.word') : null}
          onAct={done}
        >
          {say('round.two-chips.go-on')}
        </Act>
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
