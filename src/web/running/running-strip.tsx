import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import { Link, useLocation } from 'wouter';
import { isOfTeam, testsRunning } from '../../log/views/blood-tests/running-tests.js';
import { personName, say } from '../../words/say.js';
import { signal, soundState, unlockSound } from '../alarm/sound.js';
import { useAlarm } from '../alarm/use-alarm.js';
import { useWakeLock } from '../alarm/wake-lock.js';
import { msOf, useNow } from '../clock.js';
import { Act } from '../parts/act.js';
import { clockText, Thread } from '../parts/thread.js';
import { useOwnClock, useWho, useWorld } from '../store/here.js';
import { inTurn, phaseOf, type Running, shownHere } from './running.js';
import { runningHere } from './running-here.js';
import { ThreadClock } from './thread-clock.js';
import './running.css';

/** The tests of the people at work here, on whatever device they were started, and those of the round on the screen. */
function useRunning(round: string | null): { readonly tests: Running[]; readonly now_ms: number } {
  const world = useWorld();
  const { person, partner } = useWho();
  const own = useOwnClock();
  const now_ms = useNow(1_000);
  const runs = useMemo(() => {
    const ours = isOfTeam([person, partner]);
    return testsRunning(world, (facts) => facts.id === round || ours(facts));
  }, [world, person, partner, round]);
  return {
    tests: inTurn(
      runs.map((test) => shownHere(test, own, now_ms)),
      now_ms,
    ),
    now_ms,
  };
}

/**
 * On every page: the tests that run for the team of this device, and the alarm when one has to be read. One row stands
 * for all of them, the next one in it; a press shows the rest. `round`: the round whose page this is.
 */
export function RunningStrip({ round = null }: { round?: string | null }) {
  const { tests, now_ms } = useRunning(round);
  const [here] = useLocation();
  const [all, setAll] = useState(false);
  const ringing = tests.find((one) => phaseOf(one, now_ms) === 'open' && one.path !== here);
  useAlarm(ringing === undefined ? null : ringing.run.run);
  useWakeLock(tests.length > 0);
  useEffect(() => {
    runningHere.tests = tests.length;
    return () => {
      runningHere.tests = 0;
    };
  }, [tests.length]);
  useSoundByAnyTap(tests.length > 0);
  // The test that is being read has its thread on its own page.
  const shown = tests.filter((one) => one.path !== here);
  const [first, ...others] = shown;
  if (first === undefined) return null;
  return (
    <section className="round-threads no-print" aria-label={say('round.threads')}>
      <div className="thread-line">
        <One one={first} now_ms={now_ms} rings={first === ringing} />
        {others.length === 0 ? null : (
          <button
            type="button"
            className="thread-more mono"
            aria-expanded={all}
            aria-label={say(all ? 'round.threads-fewer' : 'round.threads-more', { count: others.length })}
            onClick={() => setAll(!all)}
          >
            {all ? '–' : `+${others.length}`}
          </button>
        )}
      </div>
      {all ? others.map((one) => <One key={one.run.run} one={one} now_ms={now_ms} rings={false} />) : null}
      <SoundLine />
    </section>
  );
}

/**
 * The same at the head of an open sheet, in one row: what runs out does so while something is typed, too. The strip of the
 * page, which lies under the sheet, is the one that sounds.
 */
export function RunningOnSheets({ round = null }: { round?: string | null }) {
  const { tests, now_ms } = useRunning(round);
  const [here] = useLocation();
  const [first, ...others] = tests;
  if (first === undefined) return null;
  return (
    <section className="threads-on-sheet no-print" aria-label={say('round.threads')}>
      <div className="thread-line">
        <One one={first} now_ms={now_ms} rings={phaseOf(first, now_ms) === 'open' && first.path !== here} />
        {others.length === 0 ? null : <span className="thread-count mono">{`+${others.length}`}</span>}
      </div>
    </section>
  );
}

function One({ one, now_ms, rings }: { one: Running; now_ms: number; rings: boolean }) {
  const { window, name, path, unsureOf } = one;
  if (rings) {
    return (
      <Link href={path} className="alarm">
        <b role="alert">{say('round.alarm', { animal: name })}</b>
        <span className="mono">{clockText(msOf(window.closesAt) - now_ms)}</span>
      </Link>
    );
  }
  return (
    <Link href={path} className="thread-row">
      <span className="thread-name">
        {name}
        {unsureOf === null ? null : (
          <span className="thread-doubt">△ {say('round.clock-of', { person: personName(unsureOf) })}</span>
        )}
      </span>
      <Thread
        start={msOf(window.startedAt)}
        opens={msOf(window.opensAt)}
        closes={msOf(window.closesAt)}
        now={now_ms}
        label={say('round.test-of', { animal: name })}
      />
      <ThreadClock window={window} now_ms={now_ms} />
    </Link>
  );
}

/** A browser sounds only after a tap, and any tap will do: nobody has to think of it while a test runs. */
function useSoundByAnyTap(wanted: boolean): void {
  const sound = useSyncExternalStore(soundState.subscribe, soundState.get);
  useEffect(() => {
    if (!wanted || sound !== 'off') return;
    const unlock = (): void => void unlockSound();
    // After the press has reached what it was meant for: the row that goes away must not move that from under a finger.
    document.addEventListener('click', unlock);
    document.addEventListener('keyup', unlock);
    return () => {
      document.removeEventListener('click', unlock);
      document.removeEventListener('keyup', unlock);
    };
  }, [wanted, sound]);
}

/** Said as long as the alarm would not be heard. */
function SoundLine() {
  const sound = useSyncExternalStore(soundState.subscribe, soundState.get);
  if (sound === 'on') return null;
  if (sound === 'none') return <p className="sound-line">{say('round.sound-none')}</p>;
  return (
    <div className="sound-line">
      <span>{say(sound === 'refused' ? 'round.sound-refused' : 'round.sound-off')}</span>
      <Act size="mid" onAct={() => void unlockSound().then(() => signal('match'))}>
        {say('round.sound-on')}
      </Act>
    </div>
  );
}
