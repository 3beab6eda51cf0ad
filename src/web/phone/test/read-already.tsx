import { useEffect, useState } from 'react';
import { useLocation } from 'wouter';
import type { TestRun } from '../../../core/animal/animal.js';
import { lacksSecond } from '../../../core/bedside/second-look.js';
import type { AnimalId } from '../../../core/ids.js';
import type { Seen } from '../../../core/point-of-care/result.js';
import { phaseAt, windowOf } from '../../../core/point-of-care/window.js';
import { said } from '../../../core/said.js';
import { correct } from '../../../log/commands/animal.js';
import { readTest } from '../../../log/commands/round.js';
import { hasUncountedMark } from '../../../log/flags/blood-tests/mark-flags.js';
import type { LogRecord } from '../../../log/record.js';
import { kitTypeNamed } from '../../../log/views/blood-tests/test-runs.js';
import { resultWords, toneOfResult } from '../../../told/result-words.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { animalPath, roundPath } from '../../parts/round-paths.js';
import { Notice } from '../../parts/state.js';
import { Zones } from '../../parts/zones.js';
import { usePartner } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Acts, Trouble } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';

/** What a test that has been read means, and what to do now. */
export function ReadAlready({ animal, run }: { animal: string; run: string }) {
  const { view, round } = useRound();
  const [, go] = useLocation();
  useEffect(() => {
    // What it means begins at its heading, whatever was scrolled to while it was read.
    window.scrollTo(0, 0);
  }, []);
  const found = stopOf(view, animal)?.stop.animal ?? null;
  const known = found?.runs.find((one) => one.run === run) ?? null;
  if (found === null || known === null) {
    return (
      <>
        <div className="round-body">
          <p>{say('round.read.no-test')}</p>
        </div>
        <Acts>
          <BigButton onAct={() => go(roundPath(round))}>{say('round.to-round')}</BigButton>
        </Acts>
      </>
    );
  }
  const name = found.name || found.label;
  const { result } = known;
  const mark = hasUncountedMark(known);
  return (
    <>
      <div className="round-body">
        <h1>{say('round.read.of', { animal: name })}</h1>
        <Notice tone={toneOfResult(result)} live="status">
          <b>{resultWords(known)}</b>
          {'. '}
          {say(`round.result-means.${result}`, {
            animal: name,
            reason: said(`due.reason.test-${known.fault ?? 'outside-window'}`),
          })}
          {mark ? ` ${say('round.read.mark-seen', { animal: name })}` : null}
        </Notice>
        {lacksSecond(known.readings) ? <SecondNow animal={found.id} run={known} /> : null}
        {result === 'reactive' || mark ? <ReactiveToDo name={name} /> : null}
        {result === 'invalid' || result === 'not-valid' || result === 'abandoned' ? (
          <p>{say('round.read.repeat-how')}</p>
        ) : null}
        <p className="soft">{say('round.read.device-to-waste')}</p>
      </div>
      <Acts>
        <BigButton onAct={() => go(animalPath(round, animal))}>
          {say('round.read.to-animal', { animal: name })}
        </BigButton>
        <Act size="mid" onAct={() => go(roundPath(round))}>
          {say('round.to-round')}
        </Act>
      </Acts>
    </>
  );
}

/** The second look that nobody could have when it was read: asked for as long as the window is open. */
function SecondNow({ animal, run }: { animal: AnimalId; run: TestRun }) {
  const { world, here, round } = useRound();
  const partner = usePartner();
  const [sees, setSees] = useState<'same' | 'other' | null>(null);
  const [theirs, setTheirs] = useState<Seen>({});
  const { state, save } = useSave();
  const kit = kitTypeNamed(world.ground, run.kitType);
  if (kit === null || run.startedAt === null || partner === null) return null;
  const window = windowOf(kit, run.startedAt);
  if (phaseAt(window, here).phase !== 'open') return null;
  const first = (world.bySubject.get(`animal:${animal}`) ?? []).find(
    (record): record is LogRecord<'test-read'> => record.kind === 'test-read' && record.id === run.readRecord,
  );
  const looked = kit.zones.every((zone) => theirs[zone.id] !== undefined);
  const done = async (): Promise<void> => {
    if (first === undefined || phaseAt(window, now()).phase !== 'open') return;
    if (sees === 'same') {
      const { second: _, ...body } = first.body;
      await save(correct(first, 'test-read', { ...body, secondReader: partner.id }));
    } else if (sees === 'other' && looked) {
      const other = readTest(animal, kit, { run: run.run, seen: { ...theirs }, round }, now());
      await save(other.ok ? { ok: true, value: other.value.map((one) => ({ ...one, by: partner.id })) } : other);
    }
  };
  return (
    <section className="step-card">
      <h2>{say('round.reactive.title')}</h2>
      <Notice tone="attention">{say('round.read.second-ask', { at: { instant: window.closesAt } })}</Notice>
      <ChooseOne<'same' | 'other'>
        label={say('round.read.second-why')}
        options={[
          { id: 'same', label: say('round.read.second', { person: partner.name }) },
          { id: 'other', label: say('round.read.second-other', { person: partner.name }) },
        ]}
        value={sees}
        onChange={setSees}
        big
      />
      {sees === 'other' ? <Zones kit={kit} seen={theirs} onSeen={setTheirs} /> : null}
      <Trouble state={state} />
      <Act
        size="big"
        why={sees === null || (sees === 'other' && !looked) ? say('round.why.second', { person: partner.name }) : null}
        onAct={done}
      >
        {say('round.read.record')}
      </Act>
    </section>
  );
}

/** A reactive test is no verdict, and it is not the team's to settle: who is told, and what is done at the kennel. */
function ReactiveToDo({ name }: { name: string }) {
  return (
    <section className="step-card">
      <h2>{say('round.reactive.title')}</h2>
      <ol>
        <li>{say('round.reactive.supervisor')}</li>
        <li>{say('round.reactive.medical')}</li>
        <li>{say('round.reactive.sign', { animal: name })}</li>
        <li>{say('round.reactive.apart', { animal: name })}</li>
        <li>{say('round.reactive.caregiver')}</li>
      </ol>
    </section>
  );
}
