import { useMemo, useState } from 'react';
import { limits } from '../../api/wire.js';
import { inOwnClock } from '../../core/clocked.js';
import { inMinutes } from '../../core/route-plan/explain/explain.js';
import { zeroOf } from '../../log/plan/happened.js';
import { type LivePlan, liveRound } from '../../log/plan/live.js';
import type { RoundView } from '../../log/views/round/round.js';
import { personName, say } from '../../words/say.js';
import { msOf, useNow } from '../clock.js';
import { Act } from '../parts/act.js';
import { Notice, State } from '../parts/state.js';
import { useOwnClock, useWorld } from '../store/here.js';
import { Ribbon } from './drawing/ribbon.js';
import { testIn } from './drawing/ribbon-data.js';
import { livePicture, plannedLane } from './live-picture.js';
import { type Names, named, namesIn } from './named.js';
import './ribbon-screens.css';

/** A new plan after something has happened may take so long, on the page itself. */
const replan_ms = 100;
const awayFor = [5, 10, 15] as const;

/** The ribbon of a round: before it the plan, during it the clock, after it what happened beside what was planned. */
export function RoundClock({ view }: { view: RoundView }) {
  const world = useWorld();
  const own = useOwnClock();
  const here_ms = useNow(5_000);
  const { begun } = view.facts;
  const begunAt = view.facts.begunAt ?? '';
  // The round is drawn by the clock of the device that works it, or by the right one where that was fast (LOG-R50); this
  // one may go otherwise.
  const apart_ms = begun === null ? 0 : msOf(begunAt) - msOf(inOwnClock(begun, own).at);
  const now_ms = here_ms + apart_ms;
  const names = useMemo(() => namesIn(world), [world]);
  const [awayUntil_ms, setAway] = useState(0);
  const running = view.state === 'running';
  // Planned again when something happens, and every minute, because time itself is something that happens.
  const minute = Math.floor(now_ms / 60_000);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the minute stands for the time, which changes all the time
  const plan = useMemo((): LivePlan | null => {
    if (!running) return null;
    const until = performance.now() + replan_ms;
    return liveRound(world, view, {
      now: new Date(now_ms).toISOString(),
      aloneFor_s: Math.max(0, (awayUntil_ms - now_ms) / 1000),
      keepGoing: () => performance.now() < until,
    });
  }, [world, view, running, minute, awayUntil_ms]);
  const zero_ms = msOf(zeroOf(view));
  const planned = plannedLane(world, view, names);
  if (view.state === 'planned') {
    return planned === null ? (
      <p className="soft">{say('ribbon.no-plan-kept')}</p>
    ) : (
      <Ribbon picture={{ zero_ms, lanes: [planned] }} label={say('ribbon.label')} />
    );
  }
  const picture = livePicture(world, view, plan, (now_ms - zero_ms) / 1000, names);
  return (
    <div className="stack">
      {begun === null || begun.at !== begunAt || Math.abs(apart_ms) <= limits.skew_s * 1000 ? null : (
        <Notice tone="attention">
          {say('ribbon.other-clock', {
            person: personName(begun.by),
            minutes: Math.round(Math.abs(apart_ms) / 60_000),
            way: apart_ms > 0 ? 'ahead' : 'behind',
          })}
        </Notice>
      )}
      {plan === null ? null : <Course plan={plan} names={names} zero_ms={zero_ms} />}
      <Ribbon
        picture={picture}
        label={say(running ? 'ribbon.label-now' : 'ribbon.label-after')}
        now_ms={running ? now_ms : null}
      />
      {plan === null ? null : (
        <div className="row no-print">
          {awayUntil_ms > now_ms ? (
            <>
              <State tone="attention">
                {say('ribbon.away.until', { at: { instant: new Date(awayUntil_ms).toISOString() } })}
              </State>
              <Act size="mid" onAct={() => setAway(0)}>
                {say('ribbon.away.back')}
              </Act>
            </>
          ) : (
            <>
              <span>{say('ribbon.away.title')}</span>
              {awayFor.map((minutes) => (
                <Act key={minutes} size="mid" onAct={() => setAway(now_ms + minutes * 60_000)}>
                  {say('ribbon.setting.minutes', { minutes })}
                </Act>
              ))}
            </>
          )}
        </div>
      )}
    </div>
  );
}

/** What comes next, when the round will be over, and what is different from the plan people have in mind. */
function Course({ plan, names, zero_ms }: { plan: LivePlan; names: Names; zero_ms: number }) {
  const next = plan.ahead[0]?.steps.find((step) => step.animal !== null);
  const inside_s = plan.ahead[0]?.inside_s ?? 0;
  const unit = plan.ahead[0]?.unitSeconds ?? 30;
  const instant = (at_s: number) => ({ instant: new Date(zero_ms + at_s * 1000).toISOString() });
  const later = plan.later_s === null ? 0 : Math.round(plan.later_s / 60);
  return (
    <div className="stack tight">
      {next === undefined ? null : (
        <p>
          <b>
            {say(`ribbon.next.${next.is}`, {
              animal:
                next.kit === undefined ? names(next.animal ?? '') : testIn(names(next.animal ?? ''), names(next.kit)),
              at: instant(inside_s + next.start * unit),
            })}
          </b>
        </p>
      )}
      <p>
        {say('ribbon.ends-about', { at: instant(plan.end_s) })}{' '}
        {plan.later_s === null
          ? null
          : later === 0
            ? say('ribbon.as-planned')
            : later > 0
              ? say('ribbon.later', { minutes: inMinutes(later, 60) })
              : say('ribbon.earlier', { minutes: inMinutes(-later, 60) })}
      </p>
      {plan.changes.length === 0 ? null : (
        <Notice tone="attention" live="status">
          <b>{say('ribbon.changes', { count: plan.changes.length })}</b>
          <ul className="plain">
            {plan.changes.map((change) => (
              <li key={`${change.say} ${JSON.stringify(change.with)}`}>{say(named(change, names))}</li>
            ))}
          </ul>
        </Notice>
      )}
    </div>
  );
}
