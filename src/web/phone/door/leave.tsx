import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Animal } from '../../../core/animal/animal.js';
import { leftBehind, throwAway } from '../../../log/bedside/left-behind.js';
import { leaveSection } from '../../../log/commands/round.js';
import { itemText } from '../../../told/item-text.js';
import { nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { Tick } from '../../parts/fields/choices.js';
import { animalPath, roundPath, sectionPath } from '../../parts/round-paths.js';
import { Notice } from '../../parts/state.js';
import { useSave } from '../../store/save.js';
import { Acts, InSight, Place, Trouble } from '../around/bits.js';
import { SignsAsked } from '../around/signs-asked.js';
import { runningTests } from '../around/threads.js';
import { useRound } from '../around/use-round.js';

/** Out of a section: off, washed, wiped, item by item; not while one of its tests still has to be read. */
export function LeaveSection({ section }: { section: string }) {
  const around = useRound();
  const { view, round } = around;
  const [cleaned, setCleaned] = useState<readonly string[]>([]);
  const [known, setKnown] = useState(false);
  /** Animals of which somebody said that their blood is thrown away. */
  const [away, setAway] = useState<readonly string[]>([]);
  const [, go] = useLocation();
  const { state, save } = useSave();
  const at = view.stops.find((stop) => stop.section.id === section);
  if (at === undefined) return <p className="round-body">{say('round.section.not-here')}</p>;
  const here = new Set(at.animals.map((stop) => stop.animal.id));
  const running = runningTests(around).filter((one) => here.has(one.animal));
  const tested = new Set(running.map((one) => one.animal));
  // Who has a running test stands in the sentence about tests.
  const behind = leftBehind(at);
  const untested = behind.open.filter(({ animal }) => !tested.has(animal.id));
  const drawn = behind.drawn.map(({ animal }) => animal);
  const open = untested.map(({ animal }) => animal);
  const unread = behind.unread.map(({ animal }) => animal);
  const kept = drawn.filter(({ id }) => !away.includes(id));
  const firstBack = open.filter((animal) => !drawn.includes(animal) && !unread.includes(animal)).slice(0, 2);
  const missing = at.section.leave.filter((item) => !cleaned.includes(item)).map(itemText);
  const why =
    running.length > 0
      ? say('round.why.tests-run', { animals: { list: running.map((one) => one.name) } })
      : missing.length > 0
        ? say('round.why.not-cleaned', { items: { list: missing } })
        : kept.length > 0
          ? say('round.why.blood-drawn', { animals: { list: kept.map(nameOf) } })
          : open.length > 0 && !known
            ? say('round.why.left-open', { animals: { list: open.map(nameOf) } })
            : null;
  const leave = async (): Promise<void> => {
    const when = now();
    const out = leaveSection(round, { section, cleaned: [...cleaned] }, running.length, when);
    const note = say('round.leave.blood-away-note');
    const said = behind.drawn.filter(({ animal }) => away.includes(animal.id));
    const thrown = said.flatMap((stop) => throwAway(stop, round, note, when));
    const saved = await save(out.ok ? { ok: true, value: [...thrown, ...out.value] } : out);
    if (saved !== null) go(roundPath(round));
  };
  return (
    <>
      <Place at={at} />
      <div className="round-body">
        <h1>{say('round.leave.of', { section: at.section.name })}</h1>
        {running.length === 0 ? null : (
          <Notice tone="running">
            {say('round.leave.tests-running', {
              count: running.length,
              animals: { list: running.map((one) => one.name) },
            })}
          </Notice>
        )}
        {drawn.length === 0 ? null : (
          <Notice tone="stop">
            {say('round.leave.drawn', { count: drawn.length, animals: { list: drawn.map(nameOf) } })}
            <BackTo animals={drawn} />
          </Notice>
        )}
        {unread.length === 0 ? null : (
          <Notice tone="stop">
            {say('round.leave.chip-in', { count: unread.length, animals: { list: unread.map(nameOf) } })}
            <BackTo animals={unread} />
          </Notice>
        )}
        {open.length === 0 ? null : (
          <Notice tone="attention">
            {say('round.leave.open', { count: open.length, animals: { list: open.map(nameOf) } })}
            <BackTo animals={firstBack} />
          </Notice>
        )}
        <SignsAsked stops={at.animals} />
        <div className="choices big">
          {drawn.map((animal) => (
            <Tick
              key={animal.id}
              label={say('round.leave.blood-away', { animal: nameOf(animal) })}
              value={away.includes(animal.id)}
              onChange={(on) => setAway(on ? [...away, animal.id] : away.filter((one) => one !== animal.id))}
            />
          ))}
          {open.length === 0 ? null : (
            <Tick
              label={say('round.leave.open-known', { animals: { list: open.map(nameOf) } })}
              value={known}
              onChange={setKnown}
            />
          )}
          {at.section.leave.map((item) => (
            <Tick
              key={item}
              label={itemText(item)}
              value={cleaned.includes(item)}
              onChange={(on) => setCleaned(on ? [...cleaned, item] : cleaned.filter((one) => one !== item))}
            />
          ))}
        </div>
        {at.section.contactMinutes === 0 ? null : (
          <p className="soft">{say('round.leave.wet', { minutes: at.section.contactMinutes })}</p>
        )}
      </div>
      <Acts>
        <Trouble state={state} />
        {at.section.contactMinutes === 0 ? null : (
          <InSight>
            <span>{say('round.leave.wet-short', { minutes: at.section.contactMinutes })}</span>
          </InSight>
        )}
        <BigButton why={why} onAct={leave}>
          {say('round.leave.out')}
        </BigButton>
        <Act size="mid" onAct={() => go(sectionPath(round, section))}>
          {say('round.back')}
        </Act>
      </Acts>
    </>
  );
}

/** The way back to animals that are left. */
function BackTo({ animals }: { animals: readonly Animal[] }) {
  const { round } = useRound();
  const [, go] = useLocation();
  return (
    <div className="act-two">
      {animals.map((animal) => (
        <Act key={animal.id} size="mid" onAct={() => go(animalPath(round, animal.id))}>
          {say('round.leave.back-to', { animal: nameOf(animal) })}
        </Act>
      ))}
    </div>
  );
}
