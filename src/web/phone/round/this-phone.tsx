import { useSyncExternalStore } from 'react';
import { say } from '../../../words/say.js';
import { signal, soundState, unlockSound } from '../../alarm/sound.js';
import type { WakeState } from '../../alarm/wake-lock.js';
import { Act } from '../../parts/act.js';
import { State } from '../../parts/state.js';
import { whenOpened } from '../../shell/when-opened.js';
import { useStatusOf } from '../../store/here.js';
import { withheldBy } from '../../withheld/withheld.js';
import { useRound } from '../around/use-round.js';

const NotSecure = whenOpened(() => import('../../withheld/not-secure.js').then((file) => file.NotSecure));

/** Whether the phone will do its part: screen lit, sound ready; and what its browser will not do, from before the round on. */
export function ThisPhone({ wake }: { wake: WakeState }) {
  const sound = useSyncExternalStore(soundState.subscribe, soundState.get);
  const { view } = useRound();
  const kept = useStatusOf('kept');
  if (view.state !== 'running' && view.state !== 'planned') return null;
  return (
    <section className="quiet-list" aria-label={say('round.phone')}>
      {view.state === 'planned' ? null : (
        <p>
          {wake === 'held' ? (
            <State tone="done">{say('round.wake.held')}</State>
          ) : (
            <State tone="attention">{say(`round.wake.${wake}`)}</State>
          )}
        </p>
      )}
      {isSecureContext ? null : <NotSecure />}
      {withheldBy(navigator, kept).map((what) => (
        <p key={what}>
          <State tone="attention">{say(`round.withheld.${what}`)}</State>
        </p>
      ))}
      <div className="row spread">
        <State tone={sound === 'on' ? 'done' : 'attention'}>{say(`round.sound.${sound}`)}</State>
        <Act size="mid" onAct={() => void unlockSound().then(() => signal('read'))}>
          {say('round.sound-try')}
        </Act>
      </div>
    </section>
  );
}
