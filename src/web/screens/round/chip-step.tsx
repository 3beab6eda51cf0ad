import { useState } from 'react';
import { readChip } from '../../../core/chip/read-chip.js';
import type { Said } from '../../../core/said.js';
import { implantChip, notGiven, scanChip } from '../../../log/commands/round.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import { effective } from '../../../log/views/effective.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round.js';
import { roundOf } from '../../../log/views/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { Notice, State } from '../../parts/state.js';
import { useSave } from '../../store/save.js';
import { chipText } from './animal-head.js';
import { Acts, NobodyHolds, Pair, Trouble } from './bits.js';
import { type ChipState, checkPack, chipState } from './chip-state.js';
import { Counter } from './counter.js';
import { meaningOfScan } from './identity.js';
import { foundOf } from './identity-scan.js';
import { NotGivenSheet } from './not-given.js';
import { useScan } from './scan.js';
import { signal } from './sound.js';
import { TypedChip } from './typed-chip.js';
import { lineNow, useRound } from './use-round.js';

type Occasion = BodyInput<'chip-scanned'>['occasion'];

/** A chip: scan the animal, scan the pack, implant, scan the animal again. Three reads, and the numbers have to agree. */
export function ChipStep({ stop, line, again }: { stop: AnimalStop; line: RoundLine; again?: () => void }) {
  const { animal } = stop;
  const { world, round } = useRound();
  const [bad, setBad] = useState<Said | null>(null);
  const [passes, setPasses] = useState(2);
  const [fresh, setFresh] = useState(false);
  const [leaving, setLeaving] = useState(false);
  const { state, save } = useSave();
  const own = effective(world.bySubject.get(`animal:${animal.id}`) ?? []).filter((one) => roundOf(one) === round);
  const read = chipState(own);
  // After a pack was thrown away the next one is scanned, although the first pack scan stands on the record.
  const chip: ChipState =
    again !== undefined && 'code' in read
      ? { is: 'scan-after', code: read.code, implantedAt: '' }
      : fresh && read.is === 'implant'
        ? { is: 'scan-pack' }
        : read;

  const note = async (
    occasion: Occasion,
    target: 'animal' | 'pack',
    text: string | null,
    typed = false,
  ): Promise<void> => {
    if (text === null) {
      setBad(null);
      const kept = await save(scanChip(animal.id, { target, occasion, found: null, passes, round }, now()));
      if (kept !== null) again?.();
      return;
    }
    const number = readChip(text);
    setBad(number.ok ? null : number.why);
    if (!number.ok) return;
    const { code } = number.value;
    if (target === 'pack') {
      const check = checkPack(code, world.animals.values(), world.shelter.lots.values());
      if (!check.ok) {
        setBad(check.why);
        signal('stop');
        return;
      }
    }
    const found = foundOf(text, code);
    const saved = await save(scanChip(animal.id, { target, occasion, found, typed, passes, round }, now()));
    if (saved === null) return;
    setFresh(false);
    const same = chip.is !== 'scan-after' || chip.code === code;
    signal(occasion === 'before' || !same ? 'stop' : 'match');
    again?.();
  };
  const heard = (text: string, typed = false): Promise<void> => {
    if (chip.is === 'scan-before') return note('before', 'animal', text, typed);
    if (chip.is === 'scan-pack' || chip.is === 'implant') return note('pack', 'pack', text, typed);
    return note('after', 'animal', text, typed);
  };
  useScan((text) => void heard(text), !leaving);

  const implant = async (): Promise<void> => {
    if (chip.is !== 'implant' || lineNow(round, animal.id, line.schedule)?.state !== 'open') return;
    const check = checkPack(chip.code, world.animals.values(), world.shelter.lots.values());
    const lot = check.ok ? check.value.lot : null;
    const body = { code: chip.code, site: say('round.chip.site'), packScan: chip.pack, lot, round };
    await save(implantChip(animal.id, body, now()));
  };
  const already = async (): Promise<void> => {
    await save(notGiven(animal.id, { schedule: line.schedule, reason: 'already-done', round }, now()));
  };
  const trouble = bad === null ? null : say(bad);
  const notGivenAct = (
    <Act size="mid" onAct={() => setLeaving(true)}>
      {say('round.not-given.open')}
    </Act>
  );
  return (
    <>
      <div className="round-body">
        <section className="step-card">
          <h2>{say('round.chip.title', { step: stepOf(chip.is) })}</h2>
          {chip.is === 'found' ? (
            <FoundChip stop={stop} code={chip.code} />
          ) : (
            <p className="kit-step">
              {say(`round.chip.${chip.is}`, {
                code: 'code' in chip ? chipText(chip.code) : '',
                animal: animal.name || animal.label,
              })}
            </p>
          )}
          {chip.is === 'scan-before' ? (
            <>
              <p className="how">{say('round.chip.how-to-scan')}</p>
              <Counter label={say('round.chip.passes')} value={passes} least={1} most={9} onChange={setPasses} />
            </>
          ) : null}
          {chip.is === 'implant' ? (
            <>
              <NobodyHolds />
              <p>
                {say('round.chip.site')}
                {'. '}
                {say('round.chip.implant-how')}
              </p>
              {chip.typed ? <Notice tone="attention">{say('round.chip.typed-only')}</Notice> : null}
              <NotListed code={chip.code} />
            </>
          ) : null}
          {chip.is === 'scan-after' || chip.is === 'scan-pack' || chip.is === 'scan-before' ? (
            <TypedChip wrong={trouble} onTyped={(text) => heard(text, true)} />
          ) : trouble === null ? null : (
            <Notice tone="stop" live="alert">
              {trouble}
            </Notice>
          )}
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        {chip.is === 'scan-before' ? (
          <BigButton onAct={() => note('before', 'animal', null)}>{say('round.chip.none-found', { passes })}</BigButton>
        ) : null}
        {chip.is === 'found' ? <BigButton onAct={already}>{say('round.chip.no-second')}</BigButton> : null}
        {chip.is === 'implant' ? <BigButton onAct={implant}>{say('round.chip.it-is-in')}</BigButton> : null}
        {chip.is === 'scan-after' ? (
          <Act size="big" onAct={() => note('after', 'animal', null)}>
            {say('round.chip.cannot-read')}
          </Act>
        ) : null}
        <Pair>
          {chip.is === 'implant' ? (
            <Act size="mid" onAct={() => setFresh(true)}>
              {say('round.chip.dropped')}
            </Act>
          ) : null}
          {chip.is === 'scan-after' ? null : notGivenAct}
        </Pair>
      </Acts>
      {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}

const steps = ['scan-before', 'scan-pack', 'implant', 'scan-after'];
const stepOf = (is: string): number => Math.max(1, steps.indexOf(is) + 1);

function NotListed({ code }: { code: string }) {
  const { world } = useRound();
  const check = checkPack(code, world.animals.values(), world.shelter.lots.values());
  if (!check.ok || check.value.listed) return null;
  return <Notice tone="attention">{say('round.chip.not-listed')}</Notice>;
}

/** A chip where none was expected: somebody may own this animal, or it is another animal. */
function FoundChip({ stop, code }: { stop: AnimalStop; code: string }) {
  const { world } = useRound();
  const meaning = meaningOfScan(stop.animal, code, world.animals.values());
  return (
    <Notice tone="stop" live="alert">
      <b>{say('round.chip.found', { code: chipText(code) })}</b>{' '}
      {meaning.is === 'other'
        ? say('round.chip.found-other', { animal: meaning.animal.name || meaning.animal.label })
        : say('round.chip.found-owner')}
      <p>
        <State tone="stop">{say('round.chip.no-implant')}</State>
      </p>
    </Notice>
  );
}
