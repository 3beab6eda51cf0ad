import { useSyncExternalStore } from 'react';
import { Link, useLocation } from 'wouter';
import type { KitType } from '../../../core/dosing/formulary.js';
import { type ReadWindow, windowOf } from '../../../core/point-of-care/window.js';
import type { RoundLine } from '../../../log/views/round.js';
import { kitTypeNamed } from '../../../log/views/test-runs.js';
import { say } from '../../../words/say.js';
import { msOf } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { clockText, Thread } from '../../parts/thread.js';
import { readPath } from './paths.js';
import { signal, soundState, unlockSound } from './sound.js';
import { useAlarm } from './use-alarm.js';
import { type OnRound, stopOf, useRound } from './use-round.js';

export interface Running {
  readonly line: RoundLine;
  readonly run: NonNullable<RoundLine['run']>;
  readonly kit: KitType;
  readonly window: ReadWindow;
  readonly name: string;
}

/** Tests whose clock runs on this round, the one to read first on top. */
export function runningTests({ view, shelter }: OnRound): Running[] {
  return view.running
    .flatMap((line): Running[] => {
      const kit = kitTypeNamed(shelter, line.run?.kitType ?? null);
      if (line.run === null || line.run.startedAt === null || kit === null) return [];
      const name = stopOf(view, line.animal)?.stop.animal.name ?? '';
      return [{ line, run: line.run, kit, window: windowOf(kit, line.run.startedAt), name }];
    })
    .sort((a, b) => (a.window.closesAt < b.window.closesAt ? -1 : 1));
}

/** Running tests on top of every screen of the round, and the alarm when one has to be read. */
export function Threads() {
  const around = useRound();
  const [here] = useLocation();
  const sound = useSyncExternalStore(soundState.subscribe, soundState.get);
  const running = runningTests(around);
  const { now_ms, round } = around;
  const open = running.filter(({ window }) => now_ms >= msOf(window.opensAt) && now_ms < msOf(window.closesAt) + 1_000);
  const path = (one: Running): string => readPath(round, one.line.animal, one.run.run);
  const ringing = open.find((one) => path(one) !== here);
  useAlarm(ringing === undefined ? null : ringing.run.run);
  // The test that is being read has its thread on its own screen.
  const shown = running.filter((one) => path(one) !== here);
  if (shown.length === 0) return null;
  return (
    <section className="round-threads" aria-label={say('round.threads')}>
      {ringing === undefined ? null : (
        <Link href={path(ringing)} className="alarm">
          <b role="alert">{say('round.alarm', { animal: ringing.name })}</b>
          <span className="mono">{clockText(msOf(ringing.window.closesAt) - now_ms)}</span>
        </Link>
      )}
      {shown.map((one) => (
        <Link key={one.run.run} href={path(one)} className="thread-row">
          <span className="thread-name">{one.name}</span>
          <Thread
            start={msOf(one.window.startedAt)}
            opens={msOf(one.window.opensAt)}
            closes={msOf(one.window.closesAt)}
            now={now_ms}
            label={say('round.test-of', { animal: one.name })}
          />
          <ThreadClock window={one.window} now_ms={now_ms} />
        </Link>
      ))}
      {sound === 'on' || sound === 'none' ? null : (
        <div className="sound-line">
          <span>{say(sound === 'refused' ? 'round.sound-refused' : 'round.sound-off')}</span>
          <Act size="mid" onAct={() => void unlockSound().then(() => signal('match'))}>
            {say('round.sound-on')}
          </Act>
        </div>
      )}
      {sound === 'none' ? <p className="sound-line">{say('round.sound-none')}</p> : null}
    </section>
  );
}

/** What is left to the opening or, once open, to the close; a word says which. */
export function ThreadClock({ window, now_ms }: { window: ReadWindow; now_ms: number }) {
  const opens = msOf(window.opensAt);
  const closes = msOf(window.closesAt);
  if (now_ms < opens) return <span className="thread-clock mono">{clockText(opens - now_ms)}</span>;
  if (now_ms < closes + 1_000) {
    return (
      <span className="thread-clock open mono">
        <span className="word">{say('round.window-open')}</span> {clockText(closes - now_ms)}
      </span>
    );
  }
  return <span className="thread-clock closed">{say('round.window-closed')}</span>;
}
