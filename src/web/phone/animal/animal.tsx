import { useEffect, useState } from 'react';
import { useLocation } from 'wouter';
import { nextStep, type Step, withoutSecond } from '../../../log/bedside/next-step.js';
import { openDifference } from '../../../log/views/chips/chip-course.js';
import { type AsNeeded, asNeededOf } from '../../../log/views/round/as-needed.js';
import { glovesBefore } from '../../../log/views/round/gloves.js';
import { identityHolds } from '../../../log/views/round/identity.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { roundPath, sectionPath } from '../../parts/round-paths.js';
import { Notice } from '../../parts/state.js';
import { AnimalHead } from '../around/animal-head.js';
import { Acts, Place } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';
import { ChipStep } from '../chip/chip-step.js';
import { GiveStep } from '../dose/give-step.js';
import { ChipDiffers } from '../identify/chip-differs.js';
import { FreshGloves } from '../identify/fresh-gloves.js';
import { Identify } from '../identify/identify.js';
import { ScanGuard } from '../identify/scan-guard.js';
import { ScanOpens } from '../identify/scan-opens.js';
import { TwoChipsStand } from '../identify/two-chips.js';
import { JustRecorded } from '../recorded/just-recorded.js';
import { DrawStep } from '../test/draw-step.js';
import { StartStep } from '../test/start-step.js';
import { AsNeededOrders, AsNeededStep } from './as-needed.js';
import { Finished } from './finished.js';
import { KeptApart } from './kept-apart.js';
import { LookStep } from './look-step.js';
import { WaitStep } from './wait-step.js';
import { WeighStep } from './weigh-step.js';

/** One animal: first who it is, then one thing to do at a time. */
export function AnimalScreen({ animal }: { animal: string }) {
  const { view, round, world, now, today, hands } = useRound();
  const [, go] = useLocation();
  const [handsOn, setHandsOn] = useState(false);
  const [answered, setAnswered] = useState<string | null>(null);
  const [goneOn, setGoneOn] = useState<ReadonlySet<string>>(new Set());
  const [asked, setAsked] = useState<AsNeeded['line'] | null>(null);
  const found = stopOf(view, animal);
  if (found === null) {
    return (
      <>
        <div className="round-body">
          <p>{say('round.animal.not-here')}</p>
        </div>
        <Acts>
          <Act size="big" onAct={() => go(roundPath(round))}>
            {say('round.to-round')}
          </Act>
        </Acts>
      </>
    );
  }
  const { stop, at } = found;
  if (view.state !== 'running') {
    return (
      <>
        <ScanOpens />
        <Place at={at} link={sectionPath(round, at.section.id)} />
        <div className="round-body">
          <AnimalHead animal={stop.animal} />
          <Notice tone="attention">
            {say(view.state === 'planned' ? 'round.not-begun' : `round.state.${view.state}`)}
          </Notice>
          <JustRecorded stop={stop} all />
        </div>
        <Acts>
          <Act size="big" onAct={() => go(roundPath(round))}>
            {say('round.to-round')}
          </Act>
        </Acts>
      </>
    );
  }
  if (at.state !== 'inside') {
    return (
      <>
        <ScanOpens />
        <Place at={at} link={sectionPath(round, at.section.id)} />
        <div className="round-body">
          <AnimalHead animal={stop.animal} />
          <Notice tone="attention">{say('round.door.first', { section: at.section.name })}</Notice>
        </div>
        <Acts>
          <Act main size="big" onAct={() => go(sectionPath(round, at.section.id))}>
            {say('round.door.to', { section: at.section.name })}
          </Act>
        </Acts>
      </>
    );
  }
  const step = nextStep(world, stop, now, today, goneOn);
  const chipLine = stop.lines.find((line) => line.action === 'chip') ?? null;
  if (step.do === 'two-numbers' && !handsOn) {
    const onAgain = chipLine === null ? null : () => setHandsOn(true);
    return <TwoChipsStand stop={stop} chips={step.chips} onAgain={onAgain} />;
  }
  const gloves = glovesBefore(world, view, at, stop.animal);
  const holds = gloves === null && identityHolds(view, stop.animal.id, hands);
  // What is done can be looked at; hands on the animal need fresh gloves, where hands come from another litter, and its
  // identity again.
  if (step.do !== 'finished' || handsOn) {
    if (gloves !== null) return <FreshGloves stop={stop} at={at} wanted={gloves} />;
    if (!holds) return <Identify stop={stop} at={at} />;
  }
  const difference = holds ? openDifference(stop.animal, stop.own) : null;
  if (difference !== null && difference.asked !== answered) {
    return <ChipDiffers stop={stop} difference={difference} onAgain={() => setAnswered(difference.asked)} />;
  }
  // Once something of it is recorded the order is closed again, until somebody asks for it anew.
  const needed = asNeededOf(world, stop.animal, today).find(
    ({ line }) => line.schedule === asked?.schedule && line.record === asked.record,
  );
  if (needed !== undefined && holds && step.do !== 'two-numbers') {
    return (
      <>
        <ScanGuard stop={stop} />
        <Place at={at} link={sectionPath(round, at.section.id)} />
        <div className="round-body">
          <AnimalHead animal={stop.animal} identified={stop.identified} />
          <KeptApart animal={stop.animal} />
        </div>
        <AsNeededStep key={needed.line.schedule} stop={stop} one={needed} onBack={() => setAsked(null)} />
      </>
    );
  }
  const onNeeded = ({ line }: AsNeeded): void => {
    setAsked(line);
    // Who it is, is asked first where that does not hold any more.
    setHandsOn(true);
  };
  return (
    <>
      {takesScans.includes(step.do) ? null : <ScanGuard stop={stop} />}
      <Place at={at} link={sectionPath(round, at.section.id)} />
      <div className="round-body">
        <AnimalHead animal={stop.animal} identified={stop.identified} />
        <KeptApart animal={stop.animal} />
        <JustRecorded stop={stop} />
        {step.do === 'two-numbers' ? null : <AsNeededOrders stop={stop} onGive={onNeeded} />}
      </div>
      {step.do === 'two-numbers' && chipLine !== null ? (
        <ChipStep stop={stop} line={chipLine} again={() => setHandsOn(false)} />
      ) : null}
      <StepScreen
        key={keyOf(step)}
        step={step}
        stop={stop}
        holds={holds}
        onHandsOn={() => setHandsOn(true)}
        onGoOn={(schedule) => setGoneOn(new Set([...goneOn, schedule]))}
      />
    </>
  );
}

/** These take scans themselves; while nothing more is to do, one opens the next animal. */
const takesScans: readonly Step['do'][] = ['chip', 'start', 'look', 'finished', 'two-numbers'];

const keyOf = (step: Step): string =>
  step.do === 'finished' || step.do === 'two-numbers'
    ? step.do
    : `${step.do}:${step.line?.schedule ?? 'weight'}:${'again' in step && step.again}`;

function StepScreen(props: StepScreenProps) {
  useEffect(() => {
    // A new step begins at its head, whatever was scrolled to before.
    window.scrollTo(0, 0);
  }, []);
  return <StepInside {...props} />;
}

interface StepScreenProps {
  readonly step: Step;
  readonly stop: AnimalStop;
  readonly holds: boolean;
  readonly onHandsOn: () => void;
  readonly onGoOn: (schedule: string) => void;
}

function StepInside({ step, stop, holds, onHandsOn, onGoOn }: StepScreenProps) {
  switch (step.do) {
    case 'weigh':
      return <WeighStep stop={stop} line={step.line} again={step.again} onSkip={() => onGoOn(withoutSecond)} />;
    case 'wait':
      return <WaitStep stop={stop} line={step.line} item={step.item} onGoOn={() => onGoOn(step.line.schedule)} />;
    case 'draw':
      return <DrawStep stop={stop} line={step.line} />;
    case 'start':
      return <StartStep stop={stop} line={step.line} />;
    case 'chip':
      return <ChipStep stop={stop} line={step.line} />;
    case 'look':
      return <LookStep stop={stop} line={step.line} />;
    case 'give':
      return <GiveStep stop={stop} line={step.line} />;
    case 'two-numbers':
      return null;
    case 'finished':
      return <Finished stop={stop} onHandsOn={holds ? null : onHandsOn} />;
  }
}
