import { useState } from 'react';
import { sameChip } from '../../../core/chip/read-chip.js';
import type { Said } from '../../../core/said.js';
import { scanChip } from '../../../log/commands/round.js';
import { toldBy } from '../../../log/views/round/identity.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { signal } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { useChipNumber } from '../../parts/use-chip-number.js';
import { useScan } from '../../scan/use-scan.js';
import { useSave } from '../../store/save.js';
import { Acts, ChipInSight, Trouble } from '../around/bits.js';
import { NotGivenSheet } from '../around/not-given.js';
import { useRound } from '../around/use-round.js';
import { foundOf } from '../identify/identity-scan.js';
import { BadScan } from '../identify/scan-answer.js';
import { TypedChip } from '../identify/typed-chip.js';

/** The chip again, days after it went in or before the animal leaves: it has to be there, and the same. */
export function LookForChip({ stop, line }: { stop: AnimalStop; line: RoundLine }) {
  const { animal } = stop;
  const { round, world } = useRound();
  const [bad, setBad] = useState<Said | null>(null);
  const [leaving, setLeaving] = useState(false);
  const { state, save } = useSave();
  const readNumber = useChipNumber();
  const note = async (text: string | null, typed = false): Promise<boolean> => {
    const read = text === null ? null : readNumber(text);
    setBad(read === null || read.ok ? null : read.why);
    if (read !== null && !read.ok) {
      signal('stop');
      return false;
    }
    const found = read === null ? null : foundOf(read.value);
    const same = found !== null && animal.chip !== null && sameChip(animal.chip.code, found.code);
    signal(same ? 'match' : 'stop');
    const told = toldBy(animal, found?.code ?? null, world);
    const what = { target: 'animal', occasion: 'recheck', found, typed, passes: 2, told, round } as const;
    return (await save(scanChip(animal.id, what, now()))) !== null;
  };
  useScan(leaving ? null : (text) => note(text));
  return (
    <>
      <BadScan why={bad} />
      <div className="round-body">
        <section className="step-card">
          <h2>{line.name}</h2>
          {animal.chip === null ? (
            <Notice tone="attention">{say('round.no-chip')}</Notice>
          ) : (
            <p className="kit-step">
              {say('round.chip.scan-after', { animal: animal.name || animal.label, code: chipText(animal.chip.code) })}
            </p>
          )}
          <p className="how">{say('round.chip.how-to-scan')}</p>
          <TypedChip onTyped={(text) => note(text, true)} />
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        {animal.chip === null ? null : <ChipInSight code={animal.chip.code} />}
        <Act size="big" onAct={() => note(null)}>
          {say('round.chip.cannot-read')}
        </Act>
        <Act size="mid" onAct={() => setLeaving(true)}>
          {say('round.look.not-done')}
        </Act>
      </Acts>
      {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}
