import { useEffect, useMemo, useRef, useState } from 'react';
import { lampCode } from '../../../core/animal/lamp.js';
import type { Given } from '../../../log/commands/dose-on-paper.js';
import { givenAlready } from '../../../log/plan/given-already.js';
import type { LogRecord } from '../../../log/record.js';
import { scheduleNamed } from '../../../log/views/due/schedules.js';
import type { AnimalStop, RoundLine, RoundView } from '../../../log/views/round/round.js';
import { amountText } from '../../../papers/sheet/amount.js';
import { lineWords } from '../../../told/line-words.js';
import { nameOf } from '../../../told/names.js';
import { personName, say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne, type Option } from '../../parts/fields/choices.js';
import { animalPath, GoButton } from '../../parts/links.js';
import { Notice } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { KeyInChip } from './key-in-chip.js';
import { KeyInGiven, useDrawUps } from './key-in-given.js';
import { KeyInLamp } from './key-in-lamp.js';
import { KeyInNotDone, KeyInWeight } from './key-in-others.js';
import { KeyInTest } from './key-in-test.js';
import type { Keying } from './keying.js';
import { type WhoDid, WhoDidFields } from './who-did.js';

interface KeyInLineProps {
  readonly view: RoundView;
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  readonly who: WhoDid;
  readonly onWho: (who: WhoDid) => void;
  readonly onKept: () => void;
  /** A code that is scanned while this line is open. */
  readonly onCode: (text: string) => void;
}

type What = Given | 'weighed' | 'read' | 'unread' | 'chip-in' | 'lamp' | 'not-given';

/** What begins as chosen: the only thing that can have been done; of a treatment the amount has to be said. */
const usual: Readonly<Record<RoundLine['action'], What | null>> = {
  weigh: 'weighed',
  test: 'read',
  chip: 'chip-in',
  give: null,
  look: 'not-given',
};

/** One line of a sheet: what was written beside it becomes a record with the time and the people that stand on the paper. */
export function KeyInLine({ view, stop, line, who, onWho, onKept, onCode }: KeyInLineProps) {
  const [opened] = useState(now);
  const start = view.facts.plan.startsAt ?? opened;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const { by, with: held } = who;
  const keying = useMemo<Keying>(
    () => ({ view, stop, line, team: by === null ? null : { by, with: held }, start, onKept }),
    [view, stop, line, by, held, start, onKept],
  );
  const world = useWorld();
  const { shelter } = world;
  const { printed } = useDrawUps(keying);
  const before = line.action === 'give' ? givenAlready(world, stop.animal.id, line.schedule, view.facts) : null;
  const lamp = scheduleNamed(shelter, line.schedule)?.satisfiedBy.includes(lampCode) === true;
  const [what, setWhat] = useState<What | null>(lamp ? 'lamp' : usual[line.action]);
  if (before !== null && (line.state === 'done' || (line.state === 'open' && printed === null))) {
    return <GivenAlready stop={stop} line={line} record={before} alone />;
  }
  // A test that was begun on a device may have been finished on paper.
  const unfinished = line.action === 'test' && line.state === 'running';
  if (line.state !== 'open' && !unfinished) {
    return (
      <Notice tone="attention" live="status">
        {say('ribbon.key-in.already', { animal: nameOf(stop.animal), what: line.name, state: lineWords(line).text })}
      </Notice>
    );
  }
  const place = `/round/${encodeURIComponent(view.facts.id)}/animal/${encodeURIComponent(stop.animal.id)}`;
  return (
    <div className="sheet stack">
      <h2 ref={heading} tabIndex={-1}>
        {say('ribbon.key-in.line', { animal: nameOf(stop.animal), what: line.name })}
      </h2>
      {line.action === 'look' && !lamp ? (
        <Notice tone="attention">
          {say('ribbon.key-in.elsewhere')} <GoButton to={place}>{say('desk.round.open-here')}</GoButton>
        </Notice>
      ) : null}
      {before === null ? null : <GivenAlready stop={stop} line={line} record={before} />}
      <WhoDidFields facts={view.facts} value={who} onChange={onWho} />
      <Ways keying={keying} lamp={lamp} what={what} onWhat={setWhat} />
      {what === 'weighed' ? <KeyInWeight keying={keying} /> : null}
      {what === 'lamp' ? <KeyInLamp keying={keying} /> : null}
      {what === 'not-given' ? <KeyInNotDone keying={keying} /> : null}
      {what === 'read' || what === 'unread' ? <KeyInTest keying={keying} reading={what === 'read'} /> : null}
      {what === 'chip-in' ? <KeyInChip keying={keying} onCode={onCode} /> : null}
      {what === 'as-printed' || what === 'other' || what === 'no-amount' ? (
        <KeyInGiven keying={keying} given={what} />
      ) : null}
    </div>
  );
}

interface GivenAlreadyProps {
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  readonly record: LogRecord<'treatment-given'>;
  /** Nothing of this line can be keyed in below. */
  readonly alone?: boolean;
}

/** That a dose of this line is on record, whoever gave it where: it is not missing, and it was not left out. */
function GivenAlready({ stop: { animal }, line, record, alone = false }: GivenAlreadyProps) {
  const who = personName(record.by);
  return (
    <Notice tone="attention" live="status">
      {say('ribbon.key-in.given-already', {
        animal: nameOf(animal),
        what: line.name,
        at: { instant: record.happenedAt },
        who,
      })}{' '}
      {alone ? `${say('ribbon.key-in.given-second')} ` : ''}
      <GoButton to={animalPath(animal.id)}>{say('ribbon.key-in.open-record')}</GoButton>
    </Notice>
  );
}

interface WaysProps {
  readonly keying: Keying;
  readonly lamp: boolean;
  readonly what: What | null;
  readonly onWhat: (what: What) => void;
}

/** What the sheet can say about this line. */
function Ways({ keying, lamp, what, onWhat }: WaysProps) {
  const { printed, weighedSince } = useDrawUps(keying);
  const { action } = keying.line;
  const options: Option<What>[] = [];
  if (action === 'give' && printed !== null) {
    options.push({
      id: 'as-printed',
      label: say('ribbon.key-in.as-printed'),
      note: weighedSince ? say('ribbon.key-in.weighed-since') : amountText(printed),
      disabled: weighedSince || printed.dose.stopped || printed.dose.inWords !== null,
    });
    options.push({ id: 'other', label: say('ribbon.key-in.other') });
    options.push({ id: 'no-amount', label: say('ribbon.key-in.no-amount') });
  }
  if (lamp) options.push({ id: 'lamp', label: say('ribbon.key-in.lamp') });
  if (action === 'weigh') options.push({ id: 'weighed', label: say('ribbon.key-in.weighed') });
  if (action === 'chip') options.push({ id: 'chip-in', label: say('ribbon.key-in.chip-in') });
  if (action === 'test') {
    options.push({ id: 'read', label: say('ribbon.key-in.test-read') });
    options.push({ id: 'unread', label: say('ribbon.key-in.test-unread') });
  }
  options.push({ id: 'not-given', label: say('ribbon.key-in.not-given') });
  return (
    <>
      {action === 'give' && printed === null ? (
        <Notice tone="attention">{say('ribbon.key-in.no-product')}</Notice>
      ) : null}
      <ChooseOne<What> label={say('ribbon.key-in.what')} options={options} value={what} onChange={onWhat} />
    </>
  );
}
