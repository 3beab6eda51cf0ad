import { useSyncExternalStore } from 'react';
import { limits } from '../../api/wire.js';
import type { Status } from '../../device/store/status.js';
import { say } from '../../words/say.js';
import { now } from '../clock.js';
import { Act } from '../parts/act.js';
import { Notice } from '../parts/state.js';
import { store, useStatus, useWorld } from '../store/here.js';
import { mustNotSwitch, newerVersion, switchVersion } from '../store/version.js';
import { LoadAgain } from './load-again.js';

/** Known from the last time the server was reached, also when it cannot be reached now. */
function WrongClock({ clock }: { clock: Status['clock'] }) {
  if (clock === null || Math.abs(clock.ahead_ms) <= limits.skew_s * 1000) return null;
  const minutes = Math.round(Math.abs(clock.ahead_ms) / 60_000);
  // Set back since it was compared: perhaps it is right now, and only the server can say.
  const key = clock.measuredAt > now() ? 'set-since' : clock.ahead_ms > 0 ? 'fast' : 'slow';
  return <Notice tone="attention">{say(`parts.clock-${key}`, { minutes })}</Notice>;
}

/** What concerns the whole device, above every page: loss, a wrong clock, a newer version. */
export function Notices() {
  const status = useStatus();
  const world = useWorld();
  const newer = useSyncExternalStore(newerVersion.subscribe, newerVersion.get);
  const { loss, clock, turnedAway, unread, damaged, told, trouble, stopped, server } = status;
  return (
    <div className="no-print">
      {stopped === null ? null : (
        <Notice tone="stop" live="alert">
          {say(`parts.stopped.${stopped}`)} <LoadAgain />
        </Notice>
      )}
      {trouble === null ? null : (
        <Notice tone="stop" live="alert">
          {say(trouble)}
        </Notice>
      )}
      {loss === null ? null : (
        <Notice tone="stop" live="alert">
          <b>{say('parts.loss.title')}</b>{' '}
          {say('parts.loss.what', { records: loss.records, unsent: loss.unsent, at: { instant: loss.at } })}{' '}
          <Act size="small" onAct={store.dropLoss}>
            {say('parts.loss.seen')}
          </Act>
        </Notice>
      )}
      {turnedAway === 0 ? null : <Notice tone="stop">{say('parts.turned-away-notice', { count: turnedAway })}</Notice>}
      {server === 'wants-sign-in' && status.whole ? <Notice tone="attention">{say('people.in.again')}</Notice> : null}
      <WrongClock clock={clock} />
      {told.map((fault) => (
        <Notice key={JSON.stringify(fault)} tone="stop">
          {say('parts.server-says', { fault })}
        </Notice>
      ))}
      {damaged === 0 ? null : <Notice tone="stop">{say('parts.damaged', { count: damaged })}</Notice>}
      {unread === 0 ? null : <Notice tone="attention">{say('parts.unread', { count: unread })}</Notice>}
      {newer ? (
        <Notice tone="running">
          {mustNotSwitch(world) ? (
            say('parts.newer-later')
          ) : (
            <>
              {say('parts.newer-now')}{' '}
              <Act size="small" onAct={switchVersion}>
                {say('parts.newer-use')}
              </Act>
            </>
          )}
        </Notice>
      ) : null}
    </div>
  );
}
