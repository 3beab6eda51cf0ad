import { useState } from 'react';
import { dayOfInstant } from '../../../core/calendar.js';
import type { KitType } from '../../../core/dosing/formulary.js';
import { type LotId, type PersonId, RunId } from '../../../core/ids.js';
import { lotsDiffer } from '../../../core/point-of-care/kit.js';
import { resultOf, type Seen } from '../../../core/point-of-care/result.js';
import { testOnPaper } from '../../../log/commands/paper.js';
import { isReadyToDraw } from '../../../log/stock/ready-syringes.js';
import { kitTypeNamed } from '../../../log/views/blood-tests/test-runs.js';
import { scheduleNamed } from '../../../log/views/due/schedules.js';
import type { Shelter } from '../../../log/views/shelter.js';
import { lotWritten } from '../../../papers/keyed-in/lot-written.js';
import { instantOf, noTimeYet, type PaperTime } from '../../../papers/keyed-in/paper-time.js';
import { say } from '../../../words/say.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { VolumeField, volumeIn } from '../../parts/fields/volume-field.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { Zones } from '../../parts/zones.js';
import { newId, useWorld } from '../../store/here.js';
import { type Keying, onSheet } from './keying.js';
import { LotField } from './lot-on-paper.js';
import { PaperTimeField } from './paper-time.js';
import { useTreaters } from './who-did.js';

/** Kits of the formulary that answer what the line asks for. */
function kitsFor(shelter: Shelter, { line }: Keying): readonly KitType[] {
  const begun = kitTypeNamed(shelter, line.run?.kitType ?? null);
  if (begun !== null) return [begun];
  const wanted: readonly string[] = scheduleNamed(shelter, line.schedule)?.satisfiedBy ?? [];
  return (shelter.formulary?.kits ?? []).filter((kit) => kit.tests.some((test) => wanted.includes(test)));
}

/** A test that was run: lots, times and zones as they are written; what it means is worked out as at the cage. */
export function KeyInTest({ keying, reading }: { keying: Keying; reading: boolean }) {
  const { shelter } = useWorld();
  const kits = kitsFor(shelter, keying);
  const [id, setId] = useState(kits[0]?.id ?? '');
  const kit = kits.find((one) => one.id === id);
  if (kit === undefined) {
    return <Notice tone="stop">{say('round.start.no-kit', { what: keying.line.name })}</Notice>;
  }
  return (
    <>
      {kits.length < 2 ? (
        <p>{say('ribbon.key-in.kit', { kit: kit.name })}</p>
      ) : (
        <Pick
          label={say('ribbon.key-in.which-kit')}
          options={kits.map((one) => ({ id: one.id as string, label: one.name }))}
          value={id as string}
          onChange={(next) => setId(next as typeof id)}
        />
      )}
      <TestFields key={id} keying={keying} kit={kit} reading={reading} />
    </>
  );
}

interface TestFieldsProps {
  readonly keying: Keying;
  readonly kit: KitType;
  /** False when the sheet has no reading. */
  readonly reading: boolean;
}

function TestFields({ keying, kit, reading }: TestFieldsProps) {
  const world = useWorld();
  const treaters = useTreaters();
  const { line, stop, view, team, start } = keying;
  const run = line.run;
  const began = run?.startedAt ?? null;
  const drawn = run !== null && (run.drawnAt !== null || began !== null);
  const [fresh] = useState(newId);
  const [kitLot, setKitLot] = useState('');
  const [bottle, setBottle] = useState('');
  const [started, setStarted] = useState<PaperTime>(began === null ? noTimeYet : { is: 'at', at: began });
  const [read, setRead] = useState<PaperTime>(noTimeYet);
  const [seen, setSeen] = useState<Seen>({});
  const [reader, setReader] = useState<PersonId | null>(null);
  const [blood, setBlood] = useState('');
  const [chosen, setChosen] = useState<number | null>(null);
  const [tray, setTray] = useState<LotId | 'none'>('none');
  const [drops, setDrops] = useState('');
  const [note, setNote] = useState('');
  const wanted = (of: { is: string; kitType?: string }): boolean => of.is === 'kit' && of.kitType === kit.id;
  const trays = [...world.shelter.lots.values()].filter((lot) => isReadyToDraw(lot.of));
  const readBy = reader ?? team?.by ?? null;
  const volume = volumeIn(blood, null, chosen);

  const intent = (): Intent => {
    if (started.is === 'open') return { missing: say('ribbon.key-in.needs-started') };
    if (reading && read.is === 'open') return { missing: say('ribbon.key-in.needs-read') };
    if (blood.trim() !== '' && volume === null) return { missing: say('desk.correct.needs-volume') };
    if (!/^\d{0,2}$/.test(drops.trim())) return { missing: say('ribbon.key-in.drops-wrong') };
    if (readBy === null) return { missing: say('ribbon.key-in.needs-who') };
    const times = [instantOf(started), instantOf(read)].flatMap((at) => at ?? []);
    const test = testOnPaper(stop.animal.id, {
      run: run?.run ?? RunId.parse(fresh),
      schedule: line.schedule,
      kit,
      lot: lotWritten(world.shelter, wanted, kitLot).lot,
      kitLot: kitLot.trim(),
      conjugateLot: bottle.trim(),
      startedAt: instantOf(started),
      readAt: reading ? instantOf(read) : null,
      seen: reading ? seen : null,
      readBy,
      volume_ul: volume,
      drops: drops.trim() === '' ? null : Number(drops),
      syringeLot: tray === 'none' ? null : tray,
      note,
      round: view.facts.id,
      day: start,
      drawn,
      started: began !== null,
    });
    return onSheet(keying, world, times, test);
  };
  const what = { kit, startedAt: instantOf(started), readAt: instantOf(read), seen };
  return (
    <>
      {began !== null ? (
        <p>{say('ribbon.key-in.started-here', { at: { instant: began } })}</p>
      ) : (
        <>
          <div className="row end">
            <LotField
              label={say('ribbon.key-in.kit-lot')}
              wanted={wanted}
              text={kitLot}
              onText={setKitLot}
              on={dayOfInstant(instantOf(started) ?? start, world.shelter.zone)}
            />
            <Field
              label={say('ribbon.key-in.bottle-lot')}
              value={bottle}
              onChange={setBottle}
              figure
              narrow
              maxLength={60}
              echo={say(bottleEcho(kitLot, bottle))}
            />
          </div>
          {kit.conjugateLotMustMatch && lotsDiffer(kitLot, bottle) ? (
            <Notice tone="stop" live="alert">
              {say('test.lots-differ', { kit: kit.name, box: kitLot.trim(), bottle: bottle.trim() })}
            </Notice>
          ) : null}
          {drawn ? null : (
            <div className="row end">
              <VolumeField
                label={say('ribbon.key-in.blood')}
                text={blood}
                onText={setBlood}
                chosen={chosen}
                onChosen={setChosen}
              />
              <p className="soft small">
                {say('ribbon.key-in.blood-empty', { least: { microlitres: kit.sample_ul } })}
              </p>
              {trays.length === 0 ? null : (
                <Pick<LotId | 'none'>
                  label={say('ribbon.key-in.tray')}
                  options={[
                    { id: 'none' as const, label: say('ribbon.key-in.tray-not-written') },
                    ...trays.map(({ id, lotText }) => ({ id, label: lotText })),
                  ]}
                  value={tray}
                  onChange={setTray}
                  narrow
                />
              )}
            </div>
          )}
          <Field
            label={say('ribbon.key-in.drops')}
            value={drops}
            onChange={setDrops}
            figure
            narrow
            inputMode="numeric"
            maxLength={2}
          />
          <PaperTimeField label={say('ribbon.key-in.started')} start={start} onChange={setStarted} />
        </>
      )}
      {reading ? (
        <>
          <PaperTimeField label={say('ribbon.key-in.read')} start={start} onChange={setRead} />
          <Zones kit={kit} seen={seen} onSeen={setSeen} />
          <Pick<PersonId>
            label={say('ribbon.key-in.read-by')}
            options={treaters}
            value={readBy}
            onChange={setReader}
            narrow
          />
          <WhatItMeans {...what} untimed={started.is === 'not-written' || read.is === 'not-written'} />
        </>
      ) : null}
      {began === null ? (
        <Field label={say('ribbon.key-in.note')} value={note} onChange={setNote} maxLength={300} />
      ) : null}
      <RecordFoot intent={intent()} action={say('ribbon.key-in.keep')} onSaved={keying.onKept} />
    </>
  );
}

/** Below the lot of the bottle; that the two differ is said in a notice of its own. */
const bottleEcho = (kitLot: string, bottle: string) =>
  bottle.trim() === ''
    ? 'ribbon.key-in.lot-empty'
    : kitLot.trim() !== '' && !lotsDiffer(kitLot, bottle)
      ? 'ribbon.key-in.lot-same'
      : 'ribbon.key-in.lot-as-written';

interface WhatItMeansProps {
  readonly kit: KitType;
  readonly startedAt: string | null;
  readonly readAt: string | null;
  readonly seen: Seen;
  readonly untimed: boolean;
}

/** The result, before it is recorded; without times it is said that there is none. */
function WhatItMeans({ kit, startedAt, readAt, seen, untimed }: WhatItMeansProps) {
  if (untimed) {
    return (
      <Notice tone="attention" live="status">
        <b>{say('round.result.not-valid')}</b>
        {'. '}
        {say('ribbon.key-in.untimed')}
      </Notice>
    );
  }
  const answered = kit.zones.every((zone) => seen[zone.id] !== undefined);
  if (startedAt === null || readAt === null || readAt < startedAt || !answered) return null;
  const { result, why } = resultOf(kit, startedAt, readAt, seen);
  return (
    <Notice tone={result === 'negative' ? 'done' : result === 'reactive' ? 'stop' : 'attention'} live="status">
      <b>{say(`round.result.${result}`)}</b>
      {'. '}
      {say(why)}
    </Notice>
  );
}
