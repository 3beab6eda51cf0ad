import { useEffect, useRef, useState } from 'react';
import { sameChip } from '../../../core/chip/read-chip.js';
import type { Said } from '../../../core/said.js';
import { provesReader } from '../../../log/bedside/reader-tried.js';
import { correct } from '../../../log/commands/animal.js';
import { discardChip, scanChip } from '../../../log/commands/round.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { ChipCourse } from '../../../log/views/chips/chip-course.js';
import { toldBy } from '../../../log/views/round/identity.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { signal } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { useChipNumber } from '../../parts/use-chip-number.js';
import { useScan } from '../../scan/use-scan.js';
import { type Save, useSave } from '../../store/save.js';
import { Acts, Pair, Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { foundOf } from '../identify/identity-scan.js';
import { BadScan } from '../identify/scan-answer.js';
import { TypedChip } from '../identify/typed-chip.js';

type NotRead = Extract<ChipCourse, { is: 'unreadable' | 'gone' }>;

/**
 * Nothing was read after implanting. First the reader is tried on a chip one knows, then the whole animal is scanned
 * again; only after that, or when the chip is seen outside, it is discarded and another one goes in.
 */
export function ChipNotRead({ stop, course }: { stop: AnimalStop; course: NotRead }) {
  const { animal } = stop;
  const { round, world } = useRound();
  const [bad, setBad] = useState<Said | null>(null);
  /** The reader has just read the very chip that is looked for: where is it? */
  const [itself, setItself] = useState<BodyInput<'chip-scanned'>['found']>(null);
  const [outside, setOutside] = useState(false);
  const { state, save } = useSave();
  const read = useChipNumber();
  const name = animal.name || animal.label;
  const gone = course.is === 'gone';
  const card = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is to be done now is the reason to bring it into sight
  useEffect(() => {
    card.current?.scrollIntoView({ block: 'start' });
  }, [course.is, itself]);
  const code = chipText(course.code);

  const inAnimal = (found: BodyInput<'chip-scanned'>['found'], typed = false) => {
    const told = toldBy(animal, found?.code ?? null, world);
    return save(
      scanChip(animal.id, { target: 'animal', occasion: 'after', found, typed, passes: 2, told, round }, now()),
    );
  };
  const readerReads = (found: BodyInput<'chip-scanned'>['found'], typed = false) =>
    save(scanChip(animal.id, { target: 'known', occasion: 'reader', found, typed, round }, now()));
  const heard = async (text: string, typed = false): Promise<boolean> => {
    const reading = read(text);
    setBad(reading.ok ? null : reading.why);
    if (!reading.ok) return false;
    const found = foundOf(reading.value);
    if (gone) {
      signal(sameChip(found.code, course.code) ? 'match' : 'stop');
      return (await inAnimal(found, typed)) !== null;
    }
    if (sameChip(found.code, course.code)) {
      setItself(found);
      return true;
    }
    if (provesReader(world, animal, found.code)) {
      signal('match');
      return (await readerReads(found, typed)) !== null;
    }
    // A number that nobody knows was read while this animal was in doubt: it is taken as its own, and stops the work.
    signal('stop');
    return (await inAnimal(found, typed)) !== null;
  };
  useScan(outside ? null : (text) => heard(text));

  const discard = async (why: 'seen-outside' | 'not-found'): Promise<void> => {
    const { implant } = course;
    const body = { code: course.code, implant: implant.id, why, lot: implant.body.lot, round };
    await save(discardChip(animal.id, body, now()));
  };
  const readsNothing = async (): Promise<void> => {
    await save(scanChip(animal.id, { target: 'known', occasion: 'reader', found: null, round }, now()));
    setBad({ say: 'round.chip.reader-silent' });
  };
  const leave = async (): Promise<void> => {
    await save(correct(course.scan, 'chip-scanned', { ...course.scan.body, leftToDesk: true }));
  };
  const onLabel = async (): Promise<void> => {
    if ((await readerReads(itself)) !== null) setItself(null);
  };
  const seenOutside = (
    <Act size="mid" onAct={() => setOutside(true)}>
      {say('round.chip.seen-outside')}
    </Act>
  );
  if (outside) {
    return (
      <SeenOutside
        code={code}
        name={name}
        state={state}
        onYes={() => discard('seen-outside')}
        onNo={() => setOutside(false)}
      />
    );
  }
  if (itself !== null) {
    return (
      <>
        <div className="round-body">
          <section className="step-card" ref={card}>
            <h2>{say('round.chip.itself', { code })}</h2>
            <p className="how">{say('round.chip.itself-where')}</p>
          </section>
        </div>
        <Acts>
          <Trouble state={state} />
          <BigButton onAct={() => inAnimal(itself)}>{say('round.chip.itself-inside', { name })}</BigButton>
          <Pair>
            {seenOutside}
            <Act size="mid" onAct={onLabel}>
              {say('round.chip.itself-label')}
            </Act>
          </Pair>
        </Acts>
      </>
    );
  }
  return (
    <>
      <BadScan why={bad} />
      <div className="round-body">
        <section className="step-card" ref={card}>
          <h2>{say(gone ? 'round.chip.gone' : 'round.chip.unreadable', { name, code })}</h2>
          <p className="kit-step">{say(gone ? 'round.chip.gone-how' : 'round.chip.try-reader', { name, code })}</p>
          <TypedChip onTyped={(text) => heard(text, true)} />
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        {gone ? (
          <BigButton onAct={() => discard('not-found')}>{say('round.chip.discard')}</BigButton>
        ) : (
          <Act size="big" onAct={readsNothing}>
            {say('round.chip.reader-reads-nothing')}
          </Act>
        )}
        <Pair>
          {seenOutside}
          <Act size="mid" onAct={leave}>
            {say('round.chip.leave-unread')}
          </Act>
        </Pair>
      </Acts>
    </>
  );
}

interface SeenOutsideProps {
  readonly code: string;
  readonly name: string;
  readonly state: Save['state'];
  readonly onYes: () => Promise<void>;
  readonly onNo: () => void;
}

/** Asked once more, for it takes the chip away from the animal; the yes stands away from where the fingers just were. */
function SeenOutside({ code, name, state, onYes, onNo }: SeenOutsideProps) {
  const card = useRef<HTMLElement>(null);
  useEffect(() => {
    card.current?.scrollIntoView({ block: 'start' });
  }, []);
  return (
    <>
      <div className="round-body">
        <section className="step-card" ref={card}>
          <h2>{say('round.chip.outside-sure', { code, name })}</h2>
          <p className="how">{say('round.chip.outside-what', { name })}</p>
          <Act size="big" onAct={onYes}>
            {say('round.chip.outside-yes')}
          </Act>
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        <Act size="big" onAct={onNo}>
          {say('round.chip.outside-no')}
        </Act>
      </Acts>
    </>
  );
}
