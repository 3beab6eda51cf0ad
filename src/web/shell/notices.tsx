import { useSyncExternalStore } from 'react';
import { limits } from '../../api/wire.js';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { Notice } from '../parts/state.js';
import { store, useStatus, useWorld } from '../store/here.js';
import { mustNotSwitch, newerVersion, switchVersion } from '../store/version.js';

/** What concerns the whole device, above every page: loss, a wrong clock, a newer version. */
export function Notices() {
  const status = useStatus();
  const world = useWorld();
  const newer = useSyncExternalStore(newerVersion.subscribe, newerVersion.get);
  const { loss, skew_ms, turnedAway, unread, damaged, trouble } = status;
  const minutes = skew_ms === null ? 0 : Math.round(Math.abs(skew_ms) / 60_000);
  return (
    <div className="no-print">
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
      {skew_ms !== null && Math.abs(skew_ms) > limits.skew_s * 1000 ? (
        <Notice tone="attention">{say(skew_ms > 0 ? 'parts.clock-fast' : 'parts.clock-slow', { minutes })}</Notice>
      ) : null}
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
