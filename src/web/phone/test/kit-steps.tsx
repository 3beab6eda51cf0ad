import { useState } from 'react';
import type { KitType } from '../../../core/dosing/formulary.js';
import { say } from '../../../words/say.js';
import { Act, BigButton } from '../../parts/act.js';
import type { SaveState } from '../../store/save.js';
import { Acts, InSight, LotInSight, Pair, Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { ForTheHand } from '../dose/dose-in-sight.js';

interface KitStepsProps {
  readonly kit: KitType;
  readonly lot: string;
  /** Name that goes on the kit. */
  readonly animal: string;
  readonly state: SaveState;
  readonly onStart: () => Promise<void>;
  readonly onBack: () => void;
}

/** The kit's own steps, one at a time; drops are counted with the thumb. The last press starts the clock. */
export function KitSteps({ kit, lot, animal, state, onStart, onBack }: KitStepsProps) {
  const { now_ms } = useRound();
  const [at, setAt] = useState(0);
  const [drops, setDrops] = useState({ conjugate: 0, sample: 0 });
  const wanted = { conjugate: kit.conjugateDrops, sample: kit.sampleDrops };
  // Counted on from what stands by then: two taps may come before the first one is drawn.
  const drop = (of: keyof typeof drops): void =>
    setDrops((before) => ({ ...before, [of]: Math.min(before[of] + 1, wanted[of]) }));
  const counted = drops.conjugate >= kit.conjugateDrops && drops.sample >= kit.sampleDrops;
  // What comes after the activation is the reading, which has a screen of its own.
  const count = Math.min(kit.clockStep ?? kit.steps.length, kit.steps.length);
  const last = at >= count - 1;
  const step = kit.steps[at] ?? '';
  // Pressed now, the window opens then.
  const rings = new Date(now_ms + kit.readOpens_s * 1000).toISOString();
  return (
    <>
      <div className="round-body">
        <section className="step-card" aria-live="polite">
          <h2>{say('round.kit-steps.title', { step: at + 1, of: count })}</h2>
          <p className="kit-step">{step}</p>
          <p className="how">
            {last
              ? say('round.kit-steps.press', { animal })
              : say('round.kit-steps.next', { next: kit.steps[at + 1] ?? '' })}
          </p>
          {last ? (
            <p className="how">
              {say('round.kit-steps.timer', {
                minutes: Math.floor(kit.readOpens_s / 60),
                seconds: kit.readOpens_s % 60,
                at: { instant: rings },
              })}
            </p>
          ) : null}
        </section>
        <section className="step-card" aria-label={say('round.drops.title')}>
          <h2>{say('round.drops.title')}</h2>
          <Drops
            label={say('round.drops.conjugate', { count: kit.conjugateDrops })}
            wanted={kit.conjugateDrops}
            count={drops.conjugate}
            onDrop={() => drop('conjugate')}
          />
          <Drops
            label={say('round.drops.sample', { count: kit.sampleDrops })}
            wanted={kit.sampleDrops}
            count={drops.sample}
            onDrop={() => drop('sample')}
          />
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        {drops.sample < kit.sampleDrops ? null : <ForTheHand cautions={[say('round.draw.sharps')]} />}
        <InSight>
          <span className="part">
            {say('round.drops.sample-short')} <Count of={drops.sample} wanted={kit.sampleDrops} />
          </span>
          {kit.conjugateDrops === 0 ? null : (
            <span className="part">
              {say('round.drops.conjugate-short')} <Count of={drops.conjugate} wanted={kit.conjugateDrops} />
            </span>
          )}
          <LotInSight lot={lot} />
        </InSight>
        {last ? (
          <BigButton why={counted ? null : say('round.drops.first')} onAct={onStart}>
            {say('round.start.pressed')}
          </BigButton>
        ) : (
          <BigButton onAct={() => setAt(at + 1)}>{say('round.kit-steps.done')}</BigButton>
        )}
        <Pair>
          <Act size="mid" onAct={() => (at === 0 ? onBack() : setAt(at - 1))}>
            {say('round.back')}
          </Act>
        </Pair>
      </Acts>
    </>
  );
}

const Count = ({ of, wanted }: { of: number; wanted: number }) => (
  <b className="mono">
    {of}/{wanted}
  </b>
);

function Drops({ label, wanted, count, onDrop }: { label: string; wanted: number; count: number; onDrop: () => void }) {
  if (wanted === 0) return null;
  return (
    <button
      type="button"
      className="drops btn"
      disabled={count >= wanted}
      onClick={onDrop}
      aria-label={say('round.drops.press', { what: label, count, wanted })}
    >
      {Array.from({ length: wanted }, (_, index) => index).map((index) => (
        <span key={index} className={index < count ? 'spot on' : 'spot'} aria-hidden="true" />
      ))}
      <span>{label}</span>
    </button>
  );
}
