import { useState } from 'react';
import { useLocation } from 'wouter';
import { type BoxOut, type KitNeed, kitNeeds } from '../../../log/bedside/kit-needs.js';
import type { KitsOut } from '../../../log/bedside/kits-ready.js';
import { takeKitsOut } from '../../../log/commands/shelter.js';
import { say } from '../../../words/say.js';
import { unlockSound } from '../../alarm/sound.js';
import { msOf, now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { roundPath } from '../../parts/round-paths.js';
import { Notice, State } from '../../parts/state.js';
import { clockText } from '../../parts/thread.js';
import { useSave } from '../../store/save.js';
import { Acts, Trouble } from '../around/bits.js';
import { Counter } from '../around/counter.js';
import { useRound } from '../around/use-round.js';
import { sinceWords } from './since.js';

/** Tests out of the cold, how many and since when, and how long until they are warm. */
export function Kits() {
  const around = useRound();
  const needs = kitNeeds(around);
  const [, go] = useLocation();
  return (
    <>
      <div className="round-body">
        <h1>{say('round.kits.title')}</h1>
        {needs.length === 0 ? <p>{say('round.kits.none')}</p> : null}
        {needs.map((need) => (
          <Kind key={need.kit.id} need={need} />
        ))}
      </div>
      <Acts>
        <Act size="big" onAct={() => go(roundPath(around.round))}>
          {say('round.to-round')}
        </Act>
      </Acts>
    </>
  );
}

function Kind({ need }: { need: KitNeed }) {
  const { kit, wanted, out, boxes } = need;
  const [first, ...others] = boxes;
  const missing = Math.max(0, wanted - out);
  return (
    <section className="step-card" aria-label={kit.name}>
      <h2>{kit.name}</h2>
      <p>
        {say('round.kits.line', { kit: kit.name, out, wanted })}{' '}
        {say('round.kits.warm-for', { minutes: kit.warmMinutes })}
      </p>
      {boxes.length === 0 ? <Notice tone="stop">{say('round.kits.no-box', { kit: kit.name })}</Notice> : null}
      {first === undefined ? null : <Box key={first.lot.id} box={first} missing={missing} />}
      {others.length === 0 ? null : (
        <details className="ruled">
          <summary>{say('round.kits.other-boxes', { count: others.length })}</summary>
          <div className="stack">
            {others.map((box) => (
              <Box key={box.lot.id} box={box} missing={0} />
            ))}
          </div>
        </details>
      )}
      <p className="soft small">{say('round.kits.ready-syringes')}</p>
    </section>
  );
}

function Box({ box, missing }: { box: BoxOut; missing: number }) {
  const { round, now_ms } = useRound();
  const { lot, left, fault, out } = box;
  const [count, setCount] = useState<number | null>(null);
  const { state, save } = useSave();
  const outNow = out.reduce((sum, batch) => sum + batch.left, 0);
  const inCold = Math.max(0, left - outNow);
  const chosen = count ?? Math.max(1, Math.min(missing, inCold));
  const take = async (): Promise<void> => {
    void unlockSound();
    await save(takeKitsOut(lot.id, { count: chosen, round }, now()));
    setCount(null);
  };
  return (
    <div className="stack tight ruled">
      <p>
        {say('round.kits.box', { lot: lot.lotText, left })}{' '}
        {lot.expires === null ? null : (
          <span className="soft">{say('round.lot.expires', { on: { date: lot.expires } })}</span>
        )}
      </p>
      {fault === null ? null : <State tone="stop">{say(`round.lot.${fault}`)}</State>}
      {out.map((batch) => (
        <Batch key={batch.at} batch={batch} now_ms={now_ms} />
      ))}
      {fault === 'expired' || fault === 'withdrawn' || inCold === 0 ? null : (
        <>
          <Counter label={say('round.kits.how-many')} value={chosen} least={1} most={inCold} onChange={setCount} />
          <Trouble state={state} />
          <Act main={missing > 0} size="big" onAct={take}>
            {say('round.kits.take-out', { count: chosen })}
          </Act>
        </>
      )}
    </div>
  );
}

function Batch({ batch, now_ms }: { batch: KitsOut; now_ms: number }) {
  const { today, shelter } = useRound();
  const { readiness, left, at } = batch;
  const since = { count: left, since: sinceWords(at, today, shelter.zone) };
  switch (readiness.is) {
    case 'ready':
      return <State tone="done">{say('round.kits.warm', since)}</State>;
    case 'warming':
      return (
        <p className="row spread">
          <State tone="running">{say('round.kits.warming', since)}</State>
          <span className="mono">{clockText(msOf(readiness.readyAt) - now_ms)}</span>
        </p>
      );
    default:
      return <Notice tone="stop">{say(readiness.why)}</Notice>;
  }
}
