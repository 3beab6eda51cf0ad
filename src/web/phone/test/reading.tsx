import { useEffect, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { asksSecond, hidesResult, readingWaits, type SecondLook } from '../../../core/bedside/second-look.js';
import { resultOf, type Seen } from '../../../core/point-of-care/result.js';
import { phaseAt } from '../../../core/point-of-care/window.js';
import { wallTimeOf } from '../../../core/wall-time.js';
import { readTest } from '../../../log/commands/round.js';
import { draft } from '../../../log/record.js';
import type { Tone } from '../../../told/tone.js';
import { personName, say } from '../../../words/say.js';
import { msOf, now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { animalPath } from '../../parts/round-paths.js';
import { Notice, State } from '../../parts/state.js';
import { clockText, Thread } from '../../parts/thread.js';
import { Zones } from '../../parts/zones.js';
import { usePartner } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Acts, InSight, LotInSight, Trouble } from '../around/bits.js';
import { type Running, runningTests, ThreadClock } from '../around/threads.js';
import { type OnRound, useRound } from '../around/use-round.js';
import { ReadAlready } from './read-already.js';

/** The reading: before its window wait, inside it say what is seen, after it only "not valid, repeat". */
export function Reading({ animal, run }: { animal: string; run: string }) {
  const around = useRound();
  const one = runningTests(around).find((running) => running.run.run === run);
  if (one === undefined) return <ReadAlready animal={animal} run={run} />;
  return <Open one={one} around={around} />;
}

function Open({ one, around }: { one: Running; around: OnRound }) {
  const { now_ms, round, shelter } = around;
  const { window, kit, name, animal, run, unsureOf } = one;
  const [seen, setSeen] = useState<Seen>({});
  const [second, setSecond] = useState<SecondLook | null>(null);
  /** What the second person sees, where it is something else. */
  const [theirs, setTheirs] = useState<Seen>({});
  const partner = usePartner();
  const [, go] = useLocation();
  const { state, save } = useSave();
  const phase = phaseAt(window, around.here);
  const answered = kit.zones.every((zone) => seen[zone.id] !== undefined);
  const reading = answered && phase.phase === 'open' ? resultOf(kit, window.startedAt, around.here, seen) : null;
  const theirsDone = kit.zones.every((zone) => theirs[zone.id] !== undefined) ? theirs : null;
  const waits = readingWaits(reading, partner, second, theirsDone);
  const hidden = hidesResult(reading, partner, second, theirsDone);
  const asked = useRef<HTMLDivElement>(null);
  const ask = asksSecond(reading, partner);
  useEffect(() => {
    // The question comes before the button: it is not left below the fold.
    if (ask) asked.current?.scrollIntoView({ block: 'center' });
  }, [ask]);
  const mark = (marks: Seen): void => {
    setSeen(marks);
    // Who looked at other marks has not looked at these.
    setSecond(null);
    setTheirs({});
  };
  const record = async (): Promise<void> => {
    const at = now();
    // What time it is now decides, not what time it was when the screen was drawn.
    if (phaseAt(window, at).phase !== 'open' || waits !== null) return;
    const secondReader = second === 'same' && partner !== null && asksSecond(reading, partner) ? partner.id : null;
    const passed = second === 'not-looked' && asksSecond(reading, partner) ? { second } : {};
    const first = readTest(animal, kit, { run: run.run, seen: { ...seen }, secondReader, round, ...passed }, at);
    if (second !== 'other' || partner === null || theirsDone === null || !first.ok) {
      await save(first);
      return;
    }
    // Who sees something else has a reading of their own; the more serious of the two stands.
    const other = readTest(animal, kit, { run: run.run, seen: { ...theirsDone }, round }, at);
    const own = other.ok ? other.value.map((one) => ({ ...one, by: partner.id })) : [];
    await save({ ok: true, value: [...first.value, ...own] });
  };
  const tooLate = async (): Promise<void> => {
    const at = now();
    if (phaseAt(window, at).phase !== 'closed') return;
    // Nothing that shows after the window counts, so nobody is asked what they see; the instant makes it not valid.
    await save([draft('test-read', `animal:${animal}`, { run: run.run, seen: {}, round }, at)]);
  };
  const clock = (instant: string): string => wallTimeOf(instant, shelter.zone);
  return (
    <>
      <div className="round-body">
        <div>
          <h1>{say('round.read.title', { animal: name })}</h1>
          <p className="soft">
            {kit.name} · {say('round.lot.lot')} <span className="mono">{run.kitLot}</span>
          </p>
          <p className="soft">
            {say('round.read.times', {
              started: seconds(window.startedAt, clock),
              opens: seconds(window.opensAt, clock),
              closes: seconds(window.closesAt, clock),
            })}
          </p>
        </div>
        <div className="big-thread">
          <Thread
            start={msOf(window.startedAt)}
            opens={msOf(window.opensAt)}
            closes={msOf(window.closesAt)}
            now={now_ms}
            label={say('round.test-of', { animal: name })}
          />
          <ThreadClock window={window} now_ms={now_ms} />
        </div>
        {unsureOf === null ? null : (
          <Notice tone="attention">{say('round.clock-unsure', { person: personName(unsureOf) })}</Notice>
        )}
        {phase.phase === 'running' ? (
          <Notice tone="running">
            <b>{say('round.read.wait', { time: clockText(msOf(window.opensAt) - now_ms) })}</b>{' '}
            {say('round.read.wait-why')}
          </Notice>
        ) : null}
        {phase.phase === 'closed' ? (
          <Notice tone="stop" live="alert">
            <b>{say('round.read.closed', { at: { instant: window.closesAt } })}</b> {say('round.read.closed-why')}
          </Notice>
        ) : null}
        {phase.phase === 'open' ? (
          <>
            {hidden ? (
              <>
                <Notice tone="attention">{say('round.read.second-hidden', { person: partner?.name ?? '' })}</Notice>
                <Act size="mid" onAct={() => mark({})}>
                  {say('round.read.see-anew')}
                </Act>
              </>
            ) : (
              <>
                <p>{say('round.read.which')}</p>
                <Zones kit={kit} seen={seen} onSeen={mark} />
              </>
            )}
            {reading === null || hidden ? null : (
              <Notice tone={toneOf(reading.result)} live="status">
                <b>{say(`round.result.${reading.result}`)}</b>
                {'. '}
                {say(reading.why)}
              </Notice>
            )}
            {ask && partner !== null ? (
              <div ref={asked} className="in-view">
                <ChooseOne<SecondLook>
                  label={say('round.read.second-why')}
                  options={[
                    { id: 'same', label: say('round.read.second', { person: partner.name }) },
                    { id: 'other', label: say('round.read.second-other', { person: partner.name }) },
                    { id: 'not-looked', label: say('round.read.second-not', { person: partner.name }) },
                  ]}
                  value={second}
                  onChange={setSecond}
                  big
                />
                {second === 'other' ? (
                  <section className="step-card">
                    <h2>{say('round.read.second-sees', { person: partner.name })}</h2>
                    <Zones kit={kit} seen={theirs} onSeen={setTheirs} />
                  </section>
                ) : null}
              </div>
            ) : null}
          </>
        ) : null}
      </div>
      <Acts>
        <Trouble state={state} />
        <InSight>
          <b className="part">{name}</b>
          <ThreadClock window={window} now_ms={now_ms} />
          <LotInSight lot={run.kitLot ?? ''} />
        </InSight>
        {reading === null || hidden ? null : (
          <State tone={toneOf(reading.result)}>{say(`round.result.${reading.result}`)}</State>
        )}
        {phase.phase === 'open' ? (
          <BigButton why={waits === null ? null : say(waits, { person: partner?.name ?? '' })} onAct={record}>
            {say('round.read.record')}
          </BigButton>
        ) : null}
        {phase.phase === 'closed' ? (
          <Act stop size="big" onAct={tooLate}>
            {say('round.read.not-valid')}
          </Act>
        ) : null}
        {phase.phase === 'running' ? <State tone="running">{say('round.read.not-yet')}</State> : null}
        <Act size="mid" onAct={() => go(animalPath(round, animal))}>
          {say('round.read.to-animal', { animal: name })}
        </Act>
      </Acts>
    </>
  );
}

const toneOf = (result: string): Tone =>
  result === 'negative' ? 'done' : result === 'reactive' ? 'stop' : 'attention';

/** An instant as a wall time to the second. Seconds are the same in every zone of the list. */
const seconds = (instant: string, clock: (instant: string) => string): string =>
  `${clock(instant)}:${instant.replace(/^.*T\d\d:\d\d:(\d\d).*$/, '$1')}`;
