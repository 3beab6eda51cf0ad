import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Animal } from '../../../core/animal/animal.js';
import { marksSuffice, neighboursOf } from '../../../core/animal/marks.js';
import { staysOpen } from '../../../core/bedside/override-rules.js';
import type { Said } from '../../../core/said.js';
import { identify, scanChip } from '../../../log/commands/round.js';
import { warningsOf } from '../../../log/views/chips/chip-warnings.js';
import { contradictions, lastIdentified, meaningOfScan } from '../../../log/views/round/identity.js';
import type { AnimalStop, SectionStop } from '../../../log/views/round/round.js';
import { twinsOf } from '../../../log/views/twins.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { animalPath, sectionPath } from '../../parts/round-paths.js';
import { Notice } from '../../parts/state.js';
import { useScan } from '../../scan/use-scan.js';
import { AnimalHead } from '../around/animal-head.js';
import { Acts, Pair, Place, Trouble } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';
import { CompareMarks } from './compare-marks.js';
import { answersOf, useIdentityScan } from './identity-scan.js';
import { OverrideSheet } from './override.js';
import { BadScan, ScanAnswer } from './scan-answer.js';
import { TwinNotes } from './twins.js';
import { TypedChip } from './typed-chip.js';
import { WrongAnimal, type WrongScan } from './wrong-animal.js';

/** Which animal is this? Nothing is done before that is answered. */
export function Identify({ stop, at }: { stop: AnimalStop; at: SectionStop }) {
  const { animal } = stop;
  const { round, world, view, hands } = useRound();
  const twins = twinsOf(world, animal);
  // Under one number marks may be the other's, as they were written down.
  const suffice = twins.number.length === 0 && marksSuffice(animal, world.animals.values());
  const [way, setWay] = useState<'scan' | 'marks'>(animal.chip === null && suffice ? 'marks' : 'scan');
  const [seen, setSeen] = useState<string | null>(null);
  const [bad, setBad] = useState<Said | null>(null);
  /** The scans that stood unanswered when the override was opened. */
  const [opened, setOpened] = useState<readonly string[] | null>(null);
  const [, go] = useLocation();
  const { state, save, heard } = useIdentityScan(stop, setBad);
  useScan((text) => heard(text));
  const unanswered = contradictions(stop);
  const against = unanswered.at(-1) ?? null;
  const ids = unanswered.map((scan) => scan.id);
  const openOverride = (): void => setOpened(ids);
  const override =
    opened !== null && staysOpen(opened, ids) ? <OverrideSheet stop={stop} onClose={() => setOpened(null)} /> : null;
  const found = against?.body.found ?? null;
  const meaning = found === null ? null : meaningOfScan(animal, found.code, world);
  const unknown = meaning?.is === 'unknown' ? against : null;
  // Once this device has made sure of another animal, the stop has had its answer here.
  const last = lastIdentified(view, hands);
  const over = against !== null && against.device === hands.device && (last?.deviceSeq ?? 0) > against.deviceSeq;
  const wrong: WrongScan | null =
    found === null || against?.id === seen || over || meaning === null || meaning.is === 'unknown'
      ? null
      : {
          code: found.code,
          raw: found.raw,
          other: meaning.is === 'other' ? meaning.animal : null,
          elsewhere: meaning.is === 'elsewhere' ? meaning.entry : null,
        };

  const change = async (other: Animal): Promise<void> => {
    if (found === null) return;
    const at_ = now();
    const there = stopOf(view, other.id)?.stop;
    const answers = there === undefined ? [] : answersOf(there);
    const saved = await save([
      ...scanChip(other.id, { target: 'animal', occasion: 'identify', found, told: 'match', round }, at_),
      ...identify(other.id, { round, by: 'chip', compared: ['chip'], answers }, at_),
    ]);
    if (saved !== null) go(animalPath(round, other.id));
  };

  if (wrong !== null) {
    return (
      <>
        <WrongAnimal
          key={against?.id}
          animal={animal}
          scan={wrong}
          onAgain={() => setSeen(against?.id ?? null)}
          onChange={change}
          onOverride={openOverride}
        />
        {override}
      </>
    );
  }
  const byMarks = way === 'marks' && suffice;
  const name = animal.name || animal.label;
  return (
    <>
      <BadScan why={bad} />
      {unknown === null || found === null || bad !== null ? null : (
        <ScanAnswer of={unknown}>
          <Notice tone="attention" live="alert">
            {say('round.identify.unknown-chip', { code: found.code, animal: name })}
          </Notice>
          <ChipWarnings warnings={warningsOf(found.raw)} />
        </ScanAnswer>
      )}
      <Place at={at} link={sectionPath(round, at.section.id)} />
      <div className="round-body">
        <AnimalHead animal={animal} />
        <TwinNotes animal={animal} twins={twins} />
        <Cautions animal={animal} />
        {suffice || twins.number.length > 0 || animal.chip !== null ? null : <MarksAlike animal={animal} />}
        {byMarks ? null : <ScanFor animal={animal} onTyped={(text) => heard(text, true)} />}
      </div>
      {byMarks ? (
        <CompareMarks
          stop={stop}
          found={unknown}
          onOther={() => setWay('scan')}
          onOverride={openOverride}
          onNotThis={() => go(sectionPath(round, at.section.id))}
        />
      ) : (
        <Acts>
          <Trouble state={state} />
          <Pair>
            {suffice ? (
              <Act size="mid" onAct={() => setWay('marks')}>
                {say('round.identify.by-marks')}
              </Act>
            ) : null}
            <Act size="mid" onAct={openOverride}>
              {say('round.identify.override')}
            </Act>
          </Pair>
          <Act size="mid" onAct={() => go(sectionPath(round, at.section.id))}>
            {say('round.to-section', { section: at.section.name })}
          </Act>
        </Acts>
      )}
      {override}
    </>
  );
}

/** No chip on record, and the marks on record do not tell it from its neighbours: said, with whom it is taken for. */
function MarksAlike({ animal }: { animal: Animal }) {
  const { world } = useRound();
  const alike = neighboursOf(animal, world.animals.values()).map((one) => one.name || one.label);
  const name = animal.name || animal.label;
  return (
    <Notice tone="attention">
      {alike.length === 0
        ? say('round.marks.too-few', { animal: name })
        : say('round.marks.alike', { animal: name, others: { list: alike } })}
    </Notice>
  );
}

function ScanFor({ animal, onTyped }: { animal: Animal; onTyped: (text: string) => Promise<boolean> }) {
  return (
    <section className="step-card">
      <h2>{say('round.identify.scan', { animal: animal.name || animal.label })}</h2>
      <p className="how">{animal.chip === null ? say('round.identify.scan-none') : say('round.identify.scan-how')}</p>
      <TypedChip onTyped={onTyped} />
    </section>
  );
}

/** Holds and notes people must know before they touch the animal. */
function Cautions({ animal }: { animal: Animal }) {
  const { today } = useRound();
  const holds = animal.holds.filter((hold) => hold.until === null || hold.until >= today);
  return (
    <>
      {holds.map((hold) => (
        <Notice key={hold.record} tone="attention">
          {hold.until === null
            ? say('round.hold', { why: hold.note || hold.code })
            : say('round.hold-until', { why: hold.note || hold.code, until: { date: hold.until } })}
        </Notice>
      ))}
      {animal.notes === '' ? null : <p className="soft">{animal.notes}</p>}
    </>
  );
}
