import { Link, useLocation } from 'wouter';
import { kitNeeds } from '../../../log/bedside/kit-needs.js';
import { isWeighedFirst } from '../../../log/bedside/next-step.js';
import { standOf } from '../../../log/bedside/stand.js';
import { beginRound } from '../../../log/commands/round.js';
import { addedInWords } from '../../../log/plan/added.js';
import { isLeft } from '../../../log/views/round/is-left.js';
import type { SectionStop } from '../../../log/views/round/round.js';
import { standsInWords } from '../../../told/stand-words.js';
import { personName, say } from '../../../words/say.js';
import { unlockSound } from '../../alarm/sound.js';
import type { WakeState } from '../../alarm/wake-lock.js';
import { msOf, now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { animalPath, clockPath, handBackPath, kitsPath, sectionPath } from '../../parts/round-paths.js';
import { SectionHatch } from '../../parts/section-hatch.js';
import { Notice, State } from '../../parts/state.js';
import { clockText } from '../../parts/thread.js';
import { usePerson } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Acts, Row, Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { WetTime } from '../door/wet-cart.js';
import { ScanOpens } from '../identify/scan-opens.js';
import { ThisPhone } from './this-phone.js';

/** The round at a glance: who, how far, what to put out first, and where to go. */
export function Home({ wake, onTeam }: { wake: WakeState; onTeam: () => void }) {
  const around = useRound();
  const { view, round, now_ms } = around;
  const person = usePerson();
  const { facts, counts } = view;
  const [, go] = useLocation();
  const { state, save } = useSave();
  const names = {
    treater: personName(facts.treater),
    holder: facts.holder === null ? say('round.nobody') : personName(facts.holder),
  };
  const ours = person !== null && (person.id === facts.treater || person.id === facts.holder);
  const sick = view.stops.filter((stop) => stop.state === 'inside');
  const nextStop = sick[0] ?? view.stops.find((stop) => openIn(stop) > 0) ?? null;
  const needs = kitNeeds(around);
  const kitsMissing = needs.some((need) => need.wanted > need.out);
  const begin = async (): Promise<void> => {
    await unlockSound();
    await save(beginRound(round, now()));
  };
  const over = view.state === 'handed-back' || view.state === 'accepted';
  return (
    <>
      <ScanOpens />
      <div className="round-body">
        <div className="row spread base">
          <h1>{say('round.title', { on: { date: facts.plan.on } })}</h1>
          <span className="soft">{say('round.counts', counts)}</span>
        </div>
        {ours || over ? (
          <p>{say('round.team.line', names)}</p>
        ) : (
          <Notice tone="attention">
            {say('round.team.other', { person: person?.name ?? '', ...names })}{' '}
            <Act size="mid" onAct={onTeam}>
              {say('round.team.change')}
            </Act>
          </Notice>
        )}
        {addedInWords(view).map((one) => (
          <Notice key={JSON.stringify(one.with)} tone="attention">
            {say(one)}
          </Notice>
        ))}
        {over ? <Notice tone="done">{say(`round.state.${view.state}`)}</Notice> : null}
        <WetTime />
        {needs.length === 0 || over ? null : (
          <Row
            href={kitsPath(round)}
            title={say('round.kits.title')}
            note={needs
              .map((need) => say('round.kits.line', { kit: need.kit.name, out: need.out, wanted: need.wanted }))
              .join(' ')}
            end={<KitState needs={needs} now_ms={now_ms} />}
          />
        )}
        {over ? null : <WeighFirst />}
        <Row href={clockPath(round)} title={say('ribbon.clock')} note={say('ribbon.clock-note')} />
        <h2>{say('round.sections')}</h2>
        <div className="round-list">
          {view.stops.map((stop) => (
            <Row
              key={stop.section.id}
              href={sectionPath(round, stop.section.id)}
              before={<SectionHatch rank={stop.section.rank} />}
              title={stop.section.name}
              note={standsInWords(stop.animals)}
              end={<SectionState stop={stop} />}
            />
          ))}
        </div>
        <ThisPhone wake={wake} />
        <Link href="/" className="soft">
          {say('round.to-start')}
        </Link>
      </div>
      <Acts>
        <Trouble state={state} />
        {over ? (
          <BigButton onAct={() => go('/')}>{say('round.to-start')}</BigButton>
        ) : view.state === 'planned' ? (
          <BigButton onAct={begin}>{say('round.begin')}</BigButton>
        ) : kitsMissing && sick.length === 0 ? (
          <BigButton onAct={() => go(kitsPath(round))}>{say('round.kits.take-out-now')}</BigButton>
        ) : nextStop === null ? (
          <BigButton onAct={() => go(handBackPath(round))}>{say('round.hand-back.title')}</BigButton>
        ) : (
          <BigButton onAct={() => go(sectionPath(round, nextStop.section.id))}>
            {say(nextStop.state === 'inside' ? 'round.go-on-in' : 'round.go-to', { section: nextStop.section.name })}
          </BigButton>
        )}
        {view.state === 'running' && nextStop !== null ? (
          <Act
            size="mid"
            onAct={() =>
              go(kitsMissing && sick.length === 0 ? sectionPath(round, nextStop.section.id) : handBackPath(round))
            }
          >
            {kitsMissing && sick.length === 0
              ? say('round.go-to', { section: nextStop.section.name })
              : say('round.hand-back.title')}
          </Act>
        ) : null}
      </Acts>
    </>
  );
}

/** Animals of a stop on which something has still to be done. */
export const openIn = (stop: SectionStop): number =>
  stop.animals.filter((one) => one.lines.some((line) => isLeft(line))).length;

function SectionState({ stop }: { stop: SectionStop }) {
  if (stop.state === 'inside') return <State tone="running">{say('round.section.inside')}</State>;
  if (stop.animals.every((one) => standOf(one) === 'done')) {
    return <State tone="done">{say('round.section.done')}</State>;
  }
  if (openIn(stop) === 0) return <State tone="attention">{say('round.section.rest')}</State>;
  return stop.state === 'left' ? (
    <State tone="attention">{say('round.section.left')}</State>
  ) : (
    <State tone="plain">{say('round.section.ahead')}</State>
  );
}

function KitState({ needs, now_ms }: { needs: ReturnType<typeof kitNeeds>; now_ms: number }) {
  const warmAt = needs.flatMap((need) => (need.warmAt === null ? [] : [msOf(need.warmAt)]));
  const last = Math.max(0, ...warmAt);
  const cold = needs.reduce((sum, need) => sum + Math.max(0, need.wanted - need.out), 0);
  if (cold > 0) return <State tone="attention">{say('round.kits.cold', { count: cold })}</State>;
  if (last > now_ms) return <span className="mono">{clockText(last - now_ms)}</span>;
  return <State tone="done">{say('round.kits.ready')}</State>;
}

function WeighFirst() {
  const { view, world, now: at, today, round } = useRound();
  const waiting = view.stops.flatMap((stop) => stop.animals.filter((one) => isWeighedFirst(world, one, at, today)));
  if (waiting.length === 0) return null;
  return (
    <section className="quiet-list" aria-label={say('round.weigh-first')}>
      <h2>{say('round.weigh-first')}</h2>
      <p className="soft">{say('round.weigh-first-why')}</p>
      <div className="row">
        {waiting.map(({ animal }) => (
          <Link key={animal.id} href={animalPath(round, animal.id)} className="btn mid">
            {animal.name || animal.label}
          </Link>
        ))}
      </div>
    </section>
  );
}
