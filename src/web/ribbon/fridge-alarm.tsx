import { useMemo, useSyncExternalStore } from 'react';
import { watched } from '../../device/snapshot.js';
import type { Preparation } from '../../log/prepare/prepare.js';
import { say } from '../../words/say.js';
import { signal, soundState, unlockSound } from '../alarm/sound.js';
import { useAlarm } from '../alarm/use-alarm.js';
import { useNow, useToday } from '../clock.js';
import { Act } from '../parts/act.js';
import { GoButton } from '../parts/links.js';
import { kitsPath } from '../parts/round-paths.js';
import { useOwnClock, useWorld } from '../store/here.js';
import { callsFor, callsOfRounds, type FridgeCall } from './fridge-calls.js';
import './ribbon-screens.css';

/** Calls that somebody has answered on this device. After a reload an open one rings again: the tests are still cold. */
const heard = watched<readonly string[]>([]);

/** Rings when tests have to leave the cold, until somebody answers; says so until they are recorded as out. */
export function FridgeAlarm({ calls }: { calls: readonly FridgeCall[] }) {
  const now_ms = useNow(1_000);
  const answered = useSyncExternalStore(heard.subscribe, heard.get);
  const wanted = calls.filter((call) => call.missing > 0);
  const due = wanted.filter((call) => call.at_ms <= now_ms);
  const coming = wanted.filter((call) => call.at_ms > now_ms).sort((a, b) => a.at_ms - b.at_ms)[0];
  const ringing = due.filter((call) => !answered.includes(call.key));
  useAlarm(ringing.length === 0 ? null : ringing.map((call) => call.key).join(' · '));
  if (due.length === 0 && coming === undefined) return null;
  return (
    <div className="no-print stack tight">
      {due.map((call) => {
        const rings = ringing.includes(call);
        return (
          <div key={call.key} className={rings ? 'fridge ringing' : 'fridge'}>
            <b role={rings ? 'alert' : undefined}>
              <span aria-hidden="true">{rings ? '■ ' : '△ '}</span>
              {say('ribbon.fridge.now', {
                count: call.missing,
                kit: call.kit.name,
                starts: { instant: call.startsAt },
              })}
            </b>
            {rings ? null : <span className="small">{say('ribbon.fridge.quiet')}</span>}
            <span className="row">
              {rings ? (
                <Act main size="mid" onAct={() => heard.set([...answered, call.key])}>
                  {say('ribbon.fridge.heard')}
                </Act>
              ) : null}
              {call.round === null ? null : (
                <GoButton to={kitsPath(call.round)}>{say('ribbon.fridge.record')}</GoButton>
              )}
            </span>
          </div>
        );
      })}
      {coming === undefined ? null : (
        <p>{say('ribbon.fridge.coming', { at: { instant: new Date(coming.at_ms).toISOString() } })}</p>
      )}
      <Sound />
    </div>
  );
}

/** Browsers only sound after a tap: until then the alarm would only be seen, and the page says so. */
function Sound() {
  const sound = useSyncExternalStore(soundState.subscribe, soundState.get);
  if (sound === 'on') return null;
  return (
    <div className="row">
      <span>△ {say(`ribbon.fridge.sound-${sound}`)}</span>
      {sound === 'none' ? null : (
        <Act size="mid" onAct={() => void unlockSound().then(() => signal('match'))}>
          {say('ribbon.fridge.sound-on')}
        </Act>
      )}
    </div>
  );
}

/** The calls of a preparation that is on the screen, looked at again every minute. */
export function useCalls(prepared: Preparation, startsAt: string | null): readonly FridgeCall[] {
  const world = useWorld();
  const minute = Math.floor(useNow(5_000) / 60_000);
  return useMemo(
    () =>
      startsAt === null
        ? []
        : callsFor(world, prepared.cart.kits, startsAt, new Date(minute * 60_000 + 59_999).toISOString()),
    [world, prepared, startsAt, minute],
  );
}

/**
 * The alarm of a preparation. It is for a moment that comes while people prepare: what was due when the page was opened
 * stands in the plan and in the cart list without a sound.
 */
export function PreparedFridge({ calls, opened_ms }: { calls: readonly FridgeCall[]; opened_ms: number }) {
  return <FridgeAlarm calls={calls.filter((call) => call.at_ms > opened_ms)} />;
}

/** The alarm of the rounds that are laid down, for the desk's first page. */
export function LaidFridge() {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const clock = useOwnClock();
  const minute = Math.floor(useNow(5_000) / 60_000);
  const calls = useMemo(
    () => callsOfRounds(world, new Date(minute * 60_000 + 59_999).toISOString(), { today, clock }),
    [world, today, clock, minute],
  );
  return <FridgeAlarm calls={calls} />;
}

/** When a kit comes out of the cold, for the cart list. */
export function outInWords(call: FridgeCall | undefined, now_ms: number): string {
  if (call === undefined) return '';
  if (call.missing === 0) return say('ribbon.fridge.all-out');
  if (call.at_ms <= now_ms) return say('ribbon.fridge.out-now');
  return say('ribbon.fridge.out-at', { at: { instant: new Date(call.at_ms).toISOString() } });
}
