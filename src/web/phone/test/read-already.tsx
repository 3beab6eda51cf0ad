import { useEffect } from 'react';
import { useLocation } from 'wouter';
import { said } from '../../../core/said.js';
import { hasUncountedMark } from '../../../log/flags/mark-flags.js';
import { say } from '../../../words/say.js';
import { Act, BigButton } from '../../parts/act.js';
import { animalPath, roundPath } from '../../parts/round-paths.js';
import { Notice } from '../../parts/state.js';
import { resultWords, toneOfResult } from '../../told/result-words.js';
import { Acts } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';

/** What a test that has been read means, and what to do now. */
export function ReadAlready({ animal, run }: { animal: string; run: string }) {
  const { view, round } = useRound();
  const [, go] = useLocation();
  useEffect(() => {
    // What it means begins at its heading, whatever was scrolled to while it was read.
    window.scrollTo(0, 0);
  }, []);
  const found = stopOf(view, animal)?.stop.animal ?? null;
  const known = found?.runs.find((one) => one.run === run) ?? null;
  if (found === null || known === null) {
    return (
      <>
        <div className="round-body">
          <p>{say('round.read.no-test')}</p>
        </div>
        <Acts>
          <BigButton onAct={() => go(roundPath(round))}>{say('round.to-round')}</BigButton>
        </Acts>
      </>
    );
  }
  const name = found.name || found.label;
  const { result } = known;
  const mark = hasUncountedMark(known);
  return (
    <>
      <div className="round-body">
        <h1>{say('round.read.of', { animal: name })}</h1>
        <Notice tone={toneOfResult(result)} live="status">
          <b>{resultWords(known)}</b>
          {'. '}
          {say(`round.result-means.${result}`, {
            animal: name,
            reason: said(`due.reason.test-${known.fault ?? 'outside-window'}`),
          })}
          {mark ? ` ${say('round.read.mark-seen', { animal: name })}` : null}
        </Notice>
        {result === 'reactive' || mark ? <ReactiveToDo name={name} /> : null}
        {result === 'invalid' || result === 'not-valid' || result === 'abandoned' ? (
          <p>{say('round.read.repeat-how')}</p>
        ) : null}
        <p className="soft">{say('round.read.device-to-waste')}</p>
      </div>
      <Acts>
        <BigButton onAct={() => go(animalPath(round, animal))}>
          {say('round.read.to-animal', { animal: name })}
        </BigButton>
        <Act size="mid" onAct={() => go(roundPath(round))}>
          {say('round.to-round')}
        </Act>
      </Acts>
    </>
  );
}

/** A reactive test is no verdict, and it is not the team's to settle: who is told, and what is done at the kennel. */
function ReactiveToDo({ name }: { name: string }) {
  return (
    <section className="step-card">
      <h2>{say('round.reactive.title')}</h2>
      <ol>
        <li>{say('round.reactive.supervisor')}</li>
        <li>{say('round.reactive.medical')}</li>
        <li>{say('round.reactive.sign', { animal: name })}</li>
        <li>{say('round.reactive.apart', { animal: name })}</li>
        <li>{say('round.reactive.caregiver')}</li>
      </ol>
    </section>
  );
}
