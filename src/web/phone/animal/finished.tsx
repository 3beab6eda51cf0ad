import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { Key } from '../../../core/said.js';
import { nextAnimal } from '../../../log/bedside/next-animal.js';
import { type Stand, standOf } from '../../../log/bedside/stand.js';
import { stageOfTest } from '../../../log/views/blood-tests/test-stage.js';
import { glovesBefore } from '../../../log/views/round/gloves.js';
import { needsRepeat } from '../../../log/views/round/is-left.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { resultWords, toneOfResult } from '../../../told/result-words.js';
import { say } from '../../../words/say.js';
import { Act, BigButton } from '../../parts/act.js';
import { animalPath, readPath, recordedPath, sectionPath } from '../../parts/round-paths.js';
import { State } from '../../parts/state.js';
import { Acts, InSight, Pair } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';
import { ChipStep } from '../chip/chip-step.js';
import { ScanGuard } from '../identify/scan-guard.js';
import { ScanOpens } from '../identify/scan-opens.js';
import { DrawStep } from '../test/draw-step.js';
import { LampToDo } from './lamp-step.js';
import { TellNow } from './tell-now.js';

interface FinishedProps {
  readonly stop: AnimalStop;
  /** Asks who the animal is before anything more is done to it; null while that is known. */
  readonly onHandsOn: (() => void) | null;
}

/** Nothing more to do by hand on this animal: what became of each line, and who is next. */
export function Finished({ stop, onHandsOn }: FinishedProps) {
  const { view, round, world } = useRound();
  const [repeat, setRepeat] = useState<RoundLine | null>(null);
  const [rescan, setRescan] = useState(false);
  const [, go] = useLocation();
  const at = stopOf(view, stop.animal.id)?.at ?? null;
  const next = at === null ? null : nextAnimal(view, at, stop.animal.id);
  const repeatable = stop.lines.find((line) => needsRepeat(line));
  const rescannable = stop.lines.find((line) => line.action === 'chip' && line.state === 'not-done' && line.abnormal);
  if (rescan && rescannable !== undefined) {
    return <ChipStep stop={stop} line={rescannable} again={() => setRescan(false)} />;
  }
  if (repeat !== null) {
    return (
      <>
        <ScanGuard stop={stop} />
        <DrawStep stop={stop} line={repeat} onDone={() => setRepeat(null)} />
      </>
    );
  }
  return (
    <>
      <ScanOpens />
      <div className="round-body">
        <section className="step-card">
          <h2>{say(titles[standOf(stop)], { animal: stop.animal.name || stop.animal.label })}</h2>
          {stop.lines.map((line) => (
            <div key={line.schedule} className="row spread ruled">
              <span>{line.name}</span>
              <LineState line={line} />
            </div>
          ))}
        </section>
        <TellNow stop={stop} />
        <LampToDo stop={stop} />
        {rescannable === undefined ? null : (
          <Act size="mid" onAct={() => (onHandsOn === null ? setRescan(true) : onHandsOn())}>
            {say('round.finished.scan-again')}
          </Act>
        )}
      </div>
      <Acts>
        {next === null || at === null ? null : (
          <InSight>
            <span className="part">
              {say('round.next-animal', { animal: next.animal.name || next.animal.label })}
              {next.animal.kennel === '' ? '' : ` · ${say('round.kennel-short', { kennel: next.animal.kennel })}`}
            </span>
            {glovesBefore(world, view, at, next.animal) === null ? null : (
              <State tone="attention">{say('round.gloves.next')}</State>
            )}
          </InSight>
        )}
        {repeatable === undefined ? null : (
          <BigButton onAct={() => (onHandsOn === null ? setRepeat(repeatable) : onHandsOn())}>
            {say('round.finished.repeat', { what: repeatable.name })}
          </BigButton>
        )}
        {repeatable !== undefined ? null : next !== null ? (
          <BigButton onAct={() => go(animalPath(round, next.animal.id))}>
            {say('round.next-animal', { animal: next.animal.name || next.animal.label })}
          </BigButton>
        ) : (
          <BigButton onAct={() => go(sectionPath(round, at?.section.id ?? ''))}>
            {say('round.to-section', { section: at?.section.name ?? '' })}
          </BigButton>
        )}
        <Pair>
          <Act size="mid" onAct={() => go(recordedPath(round, stop.animal.id))}>
            {say('round.recorded.title')}
          </Act>
          {repeatable !== undefined && next !== null ? (
            <Act size="mid" onAct={() => go(animalPath(round, next.animal.id))}>
              {say('round.next-animal', { animal: next.animal.name || next.animal.label })}
            </Act>
          ) : (
            <Act size="mid" onAct={() => go(sectionPath(round, at?.section.id ?? ''))}>
              {say('round.to-section', { section: at?.section.name ?? '' })}
            </Act>
          )}
        </Pair>
      </Acts>
    </>
  );
}

/** "Done" is said only when it is so. */
const titles = {
  stopped: 'round.finished.stopped',
  'two-numbers': 'round.finished.two-numbers',
  'chip-unread': 'round.finished.chip-unread',
  reactive: 'round.finished.reactive',
  glow: 'round.finished.glow',
  unsure: 'round.finished.unsure',
  drawn: 'round.finished.drawn',
  'chip-in': 'round.finished.chip-in',
  repeat: 'round.finished.repeat-due',
  running: 'round.finished.running',
  open: 'round.finished.open',
  look: 'round.finished.look',
  'not-done': 'round.finished.not-done',
  done: 'round.finished.done',
} as const satisfies Record<Stand, Key>;

export function LineState({ line }: { line: RoundLine }) {
  const { round } = useRound();
  if (line.state === 'not-done')
    return (
      <State tone={line.reason === 'chip-differs' ? 'stop' : 'attention'}>
        {say(`not-given.${line.reason || 'other'}`)}
      </State>
    );
  if (line.run !== null) {
    const { result, run } = line.run;
    return (
      <Link href={readPath(round, line.animal, run)} className="state-link">
        <State tone={stageOfTest(line.run) === 'drawn' ? 'attention' : toneOfResult(result)}>
          {resultWords(line.run)}
        </State>
      </Link>
    );
  }
  if (line.answer !== undefined) {
    return <State tone={line.abnormal ? 'attention' : 'done'}>{say(`round.lamp.${line.answer}`)}</State>;
  }
  if (line.chip !== undefined) {
    return <State tone={line.chip === 'two-numbers' ? 'stop' : 'attention'}>{say(`round.line.${line.chip}`)}</State>;
  }
  if (line.state !== 'done') return <State tone="plain">{say('round.line.open-one')}</State>;
  return (
    <State tone={line.abnormal ? 'attention' : 'done'}>
      {say(line.abnormal ? 'round.line.abnormal' : 'round.line.done')}
    </State>
  );
}
