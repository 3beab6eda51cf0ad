import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Animal } from '../../../core/animal/animal.js';
import type { Said } from '../../../core/said.js';
import { identify, scanChip } from '../../../log/commands/round.js';
import type { AnimalStop, SectionStop } from '../../../log/views/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { AnimalHead } from './animal-head.js';
import { Acts, Pair, Place, Trouble } from './bits.js';
import { CompareMarks } from './compare-marks.js';
import { contradiction, lastIdentified, marksSuffice, meaningOfScan } from './identity.js';
import { foundOf, useIdentityScan } from './identity-scan.js';
import { OverrideSheet } from './override.js';
import { animalPath, sectionPath } from './paths.js';
import { useScan } from './scan.js';
import { TypedChip } from './typed-chip.js';
import { useRound } from './use-round.js';
import { WrongAnimal, type WrongScan } from './wrong-animal.js';

/** Which animal is this? Nothing is done before that is answered. */
export function Identify({ stop, at }: { stop: AnimalStop; at: SectionStop }) {
  const { animal } = stop;
  const { round, world, view, device } = useRound();
  const [way, setWay] = useState<'scan' | 'marks'>(animal.chip === null && marksSuffice(animal) ? 'marks' : 'scan');
  const [seen, setSeen] = useState<string | null>(null);
  const [bad, setBad] = useState<Said | null>(null);
  const [override, setOverride] = useState(false);
  const [, go] = useLocation();
  const { state, save, heard } = useIdentityScan(stop, setBad);
  useScan((text) => void heard(text), !override);
  const against = contradiction(stop, round);
  const meaning = against?.code == null ? null : meaningOfScan(animal, against.code, world.animals.values());
  const unknown = meaning?.is === 'unknown' ? (against?.code ?? null) : null;
  // Once another animal has been made sure of, the stop has had its answer.
  const over = against !== null && lastIdentified(view, device) >= against.at;
  const wrong: WrongScan | null =
    against?.code == null || against.record === seen || over || meaning === null || meaning.is === 'unknown'
      ? null
      : { code: against.code, other: meaning.is === 'other' ? meaning.animal : null };

  const change = async (other: Animal, code: string): Promise<void> => {
    const at_ = now();
    const found = foundOf(code, code);
    const saved = await save([
      ...scanChip(other.id, { target: 'animal', occasion: 'identify', found, round }, at_),
      ...identify(other.id, { round, by: 'chip', compared: ['chip'] }, at_),
    ]);
    if (saved !== null) go(animalPath(round, other.id));
  };

  if (wrong !== null) {
    return (
      <>
        <WrongAnimal
          animal={animal}
          scan={wrong}
          onAgain={() => setSeen(against?.record ?? null)}
          onChange={(other) => change(other, wrong.code)}
          onOverride={() => setOverride(true)}
        />
        {override ? <OverrideSheet stop={stop} onClose={() => setOverride(false)} /> : null}
      </>
    );
  }
  const byMarks = way === 'marks' && marksSuffice(animal);
  return (
    <>
      <Place at={at} link={sectionPath(round, at.section.id)} />
      <div className="round-body">
        <AnimalHead animal={animal} />
        <Cautions animal={animal} />
        {unknown === null ? null : (
          <Notice tone="attention" live="alert">
            {say('round.identify.unknown-chip', { code: unknown, animal: animal.name || animal.label })}
          </Notice>
        )}
        {byMarks ? null : <ScanFor animal={animal} bad={bad} onTyped={(text) => heard(text, true)} />}
      </div>
      {byMarks ? (
        <CompareMarks
          stop={stop}
          foundChip={unknown}
          onOther={() => setWay('scan')}
          onOverride={() => setOverride(true)}
          onNotThis={() => go(sectionPath(round, at.section.id))}
        />
      ) : (
        <Acts>
          <Trouble state={state} />
          <Pair>
            {marksSuffice(animal) ? (
              <Act size="mid" onAct={() => setWay('marks')}>
                {say('round.identify.by-marks')}
              </Act>
            ) : null}
            <Act size="mid" onAct={() => setOverride(true)}>
              {say('round.identify.override')}
            </Act>
          </Pair>
          <Act size="mid" onAct={() => go(sectionPath(round, at.section.id))}>
            {say('round.to-section', { section: at.section.name })}
          </Act>
        </Acts>
      )}
      {override ? <OverrideSheet stop={stop} onClose={() => setOverride(false)} /> : null}
    </>
  );
}

function ScanFor({
  animal,
  bad,
  onTyped,
}: {
  animal: Animal;
  bad: Said | null;
  onTyped: (text: string) => Promise<void>;
}) {
  return (
    <section className="step-card">
      <h2>{say('round.identify.scan', { animal: animal.name || animal.label })}</h2>
      <p className="how">{animal.chip === null ? say('round.identify.scan-none') : say('round.identify.scan-how')}</p>
      <TypedChip wrong={bad === null ? null : say(bad)} onTyped={onTyped} />
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
