import { useState } from 'react';
import type { Said } from '../../../core/said.js';
import { correct } from '../../../log/commands/animal.js';
import { discardChip, implantChip, scanChip, tellOfChip } from '../../../log/commands/round.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { LogRecord } from '../../../log/record.js';
import { type ChipCourse, chipCourse } from '../../../log/views/chips/chip-course.js';
import { namedElsewhere } from '../../../log/views/chips/chip-elsewhere.js';
import { checkPack } from '../../../log/views/chips/chip-pack.js';
import { packWarnings, warningsOf } from '../../../log/views/chips/chip-warnings.js';
import { effective } from '../../../log/views/effective.js';
import { meaningOfScan, toldBy } from '../../../log/views/round/identity.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import type { World } from '../../../log/views/world.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { signal } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { Notice, State } from '../../parts/state.js';
import { useChipNumber } from '../../parts/use-chip-number.js';
import { useScan } from '../../scan/use-scan.js';
import { useSave } from '../../store/save.js';
import { Acts, ChipInSight, InSight, NobodyHolds, Pair, Trouble } from '../around/bits.js';
import { Counter } from '../around/counter.js';
import { NotGivenSheet } from '../around/not-given.js';
import { lineNow, useRound } from '../around/use-round.js';
import { foundOf } from '../identify/identity-scan.js';
import { BadScan } from '../identify/scan-answer.js';
import { TypedChip } from '../identify/typed-chip.js';
import { ChipNotRead } from './chip-not-read.js';

interface ChipStepProps {
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  /** Scans the animal once more although that is done; told when it was. */
  readonly again?: () => void;
}

/** A chip: scan the animal, scan the pack, implant, scan the animal again. Three reads, and the numbers have to agree. */
export function ChipStep({ stop, line, again }: ChipStepProps) {
  const course = chipCourse(stop.own, stop.animal.scans);
  if (again === undefined && (course.is === 'unreadable' || course.is === 'gone')) {
    return <ChipNotRead stop={stop} course={course} />;
  }
  return <ScanAndImplant stop={stop} line={line} course={course} {...(again === undefined ? {} : { again })} />;
}

type Shown = 'scan-before' | 'found' | 'scan-pack' | 'implant' | 'scan-after';
const shownOf = (is: ChipCourse['is']): Shown =>
  is === 'same' || is === 'differs' || is === 'unreadable' || is === 'gone' ? 'scan-after' : is;

function ScanAndImplant({ stop, line, course, again }: ChipStepProps & { readonly course: ChipCourse }) {
  const { animal } = stop;
  const { world, round } = useRound();
  const [bad, setBad] = useState<Said | null>(null);
  const [passes, setPasses] = useState(2);
  const [leaving, setLeaving] = useState(false);
  const { state, save } = useSave();
  const read = useChipNumber();
  const shown = shownOf(course.is);
  const code = 'code' in course ? course.code : '';

  /** Answers whether it is on record. */
  const note = async (text: string | null, typed = false): Promise<boolean> => {
    const occasion = shown === 'scan-before' ? 'before' : shown === 'scan-after' ? 'after' : 'pack';
    const target = occasion === 'pack' ? 'pack' : 'animal';
    let found: BodyInput<'chip-scanned'>['found'] = null;
    if (text !== null) {
      const reading = read(text);
      const pack = reading.ok && target === 'pack' ? checkPack(reading.value.code, world) : reading;
      setBad(pack.ok ? null : pack.why);
      if (!reading.ok || !pack.ok) {
        signal('stop');
        return false;
      }
      found = foundOf(reading.value);
    } else setBad(null);
    const told = target === 'pack' ? null : toldBy(animal, found?.code ?? null, world);
    const saved = await save(scanChip(animal.id, { target, occasion, found, typed, passes, told, round }, now()));
    if (saved === null) return false;
    if (found !== null)
      signal(occasion === 'before' || (occasion === 'after' && found.code !== code) ? 'stop' : 'match');
    again?.();
    return true;
  };
  useScan(leaving || shown === 'found' ? null : (text) => note(text));

  const implant = async (): Promise<void> => {
    if (course.is !== 'implant' || lineNow(round, animal.id, line.schedule)?.state !== 'open') return;
    const check = checkPack(code, world);
    const lot = check.ok ? check.value.lot : null;
    const body = { code, site: 'between-shoulder-blades' as const, packScan: course.pack.id, lot, round };
    await save(implantChip(animal.id, body, now()));
  };
  const dropped = async (): Promise<void> => {
    const check = checkPack(code, world);
    const lot = check.ok ? check.value.lot : null;
    await save(discardChip(animal.id, { code, implant: null, why: 'dropped', lot, round }, now()));
  };
  const tellDesk = async (): Promise<void> => {
    await save(tellOfChip(animal.id, line.schedule, round, now()));
  };
  const notInIt = async (): Promise<void> => {
    if (course.is !== 'found') return;
    const scans = readingsOf(world, animal.id, course.records);
    await save(scans.flatMap((scan) => correct(scan, 'chip-scanned', { ...scan.body, ofAnother: true })));
  };
  return (
    <>
      <BadScan why={bad} />
      <div className="round-body">
        <section className="step-card">
          <h2>{say('round.chip.title', { step: stepOf(shown) })}</h2>
          <What stop={stop} course={course} shown={shown} />
          {shown === 'scan-before' ? (
            <Counter label={say('round.chip.passes')} value={passes} least={1} most={9} onChange={setPasses} />
          ) : null}
          {shown === 'found' || shown === 'implant' ? null : <TypedChip onTyped={(text) => note(text, true)} />}
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        {shown === 'found' ? (
          <InSight>
            <State tone="stop">{say('round.chip.found', { code: chipText(code) })}</State>
          </InSight>
        ) : code === '' ? null : (
          <ChipInSight code={code} />
        )}
        {shown === 'scan-before' ? (
          <BigButton onAct={() => note(null)}>{say('round.chip.none-found', { passes })}</BigButton>
        ) : null}
        {shown === 'found' ? <BigButton onAct={tellDesk}>{say('round.chip.no-second')}</BigButton> : null}
        {shown === 'implant' ? <BigButton onAct={implant}>{say('round.chip.it-is-in')}</BigButton> : null}
        {shown === 'scan-after' ? (
          <Act size="big" onAct={() => note(null)}>
            {say('round.chip.cannot-read')}
          </Act>
        ) : null}
        <Pair>
          {course.is === 'found' && mayBeAnothers(stop, course) ? (
            <Act size="mid" onAct={notInIt}>
              {say('round.chip.not-in-it')}
            </Act>
          ) : null}
          {shown === 'implant' ? (
            <Act size="mid" onAct={dropped}>
              {say('round.chip.dropped')}
            </Act>
          ) : null}
          {shown === 'scan-after' ? null : (
            <Act size="mid" onAct={() => setLeaving(true)}>
              {say('round.not-given.open')}
            </Act>
          )}
        </Pair>
      </Acts>
      {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}

const steps: readonly string[] = ['scan-before', 'scan-pack', 'implant', 'scan-after'];
const stepOf = (shown: Shown): number => Math.max(1, steps.indexOf(shown) + 1);

/** What to do now, with everything that has to be known of the chip in the hand. */
function What({ stop, course, shown }: { stop: AnimalStop; course: ChipCourse; shown: Shown }) {
  const { world } = useRound();
  const { animal } = stop;
  if (course.is === 'found') return <FoundChip stop={stop} code={course.code} />;
  const code = 'code' in course ? chipText(course.code) : '';
  const anew = course.is === 'scan-after' && course.again;
  const name = animal.name || animal.label;
  return (
    <>
      <p className="kit-step">{say(anew ? 'round.chip.scan-whole' : `round.chip.${shown}`, { code, animal: name })}</p>
      {shown === 'scan-before' || anew ? <p className="how">{say('round.chip.how-to-scan')}</p> : null}
      {course.is === 'implant' ? (
        <>
          <NobodyHolds />
          <p>
            {say('round.chip.site')}
            {'. '}
            {say('round.chip.implant-how')}
          </p>
          {course.pack.body.typed ? <Notice tone="attention">{say('round.chip.typed-only')}</Notice> : null}
          <ChipWarnings
            warnings={packWarnings(
              course.pack.body.found?.raw ?? course.code,
              course.code,
              world.shelter.lots.values(),
            )}
          />
        </>
      ) : null}
    </>
  );
}

type Found = Extract<ChipCourse, { is: 'found' }>;

/** The scans that read it, as they stand. */
const readingsOf = (world: World, animal: string, ids: Found['records']): LogRecord<'chip-scanned'>[] =>
  effective(world.bySubject.get(`animal:${animal}`) ?? []).filter(
    (record): record is LogRecord<'chip-scanned'> => record.kind === 'chip-scanned' && ids.includes(record.id),
  );

/** Implanted here, and on the animal's record. */
const isOurs = ({ animal }: AnimalStop, code: string): boolean =>
  animal.chip?.code === code && animal.history.some((event) => event.what === 'chipped' && event.implanted === true);

/** What was on its record before this round is not put off as another cat's from the cage. */
const mayBeAnothers = ({ animal, own }: AnimalStop, { code, records }: Found): boolean =>
  animal.chip?.code !== code || records.every((id) => own.some((record) => record.id === id));

/** A chip where none was expected: somebody may own this animal, or it is another animal. */
function FoundChip({ stop, code }: { stop: AnimalStop; code: string }) {
  const { world } = useRound();
  const meaning = meaningOfScan(stop.animal, code, world);
  const raw = stop.own.findLast((one) => one.kind === 'chip-scanned' && one.body.found?.code === code);
  return (
    <>
      <Notice tone="stop" live="alert">
        <b>{say('round.chip.found', { code: chipText(code) })}</b>{' '}
        {meaning.is === 'other'
          ? say('round.chip.found-other', { animal: meaning.animal.name || meaning.animal.label })
          : meaning.is === 'elsewhere'
            ? say('round.chip.found-elsewhere', { animal: namedElsewhere(meaning.entry) })
            : say(isOurs(stop, code) ? 'round.chip.found-own' : 'round.chip.found-owner', {
                animal: stop.animal.name || stop.animal.label,
              })}
        <p>
          <State tone="stop">{say('round.chip.no-implant')}</State>
        </p>
      </Notice>
      <ChipWarnings warnings={warningsOf(raw?.kind === 'chip-scanned' ? (raw.body.found?.raw ?? code) : code)} />
    </>
  );
}
