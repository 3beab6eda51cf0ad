import { useState } from 'react';
import { bloodWaited } from '../../../core/bedside/blood-waited.js';
import type { KitType } from '../../../core/dosing/formulary.js';
import type { KitTypeId, LotId } from '../../../core/ids.js';
import { lotsMatch } from '../../../core/point-of-care/kit.js';
import { boxNamed, whyNotOfBox } from '../../../log/bedside/box-named.js';
import { boxesOf } from '../../../log/bedside/kit-needs.js';
import { startTest } from '../../../log/commands/round.js';
import { settingsOf } from '../../../log/plan/settings.js';
import { kitFor } from '../../../log/prepare/item-needs.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { dueIn } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { unlockSound } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { Field } from '../../parts/fields/field.js';
import { Notice } from '../../parts/state.js';
import { useSave } from '../../store/save.js';
import { Acts, InSight, Pair, Trouble } from '../around/bits.js';
import { NotGivenSheet } from '../around/not-given.js';
import { lineNow, useRound } from '../around/use-round.js';
import { ScanGuard } from '../identify/scan-guard.js';
import { ChooseBox, type ChosenBox } from './choose-box.js';
import { DrawStep } from './draw-step.js';
import { KitSteps } from './kit-steps.js';

/** From the blood to the running clock: right box, right conjugate, warm kit, drops, and the press that starts it. */
export function StartStep({ stop, line }: { stop: AnimalStop; line: RoundLine }) {
  const { animal } = stop;
  const around = useRound();
  const { world, today, round, view } = around;
  const item = dueIn(world, animal, today).find((one) => one.schedule === line.schedule);
  const kit = (item === undefined ? null : kitFor(world, item)) ?? world.shelter.formulary?.kits[0] ?? null;
  const [box, setBox] = useState<ChosenBox | null>(null);
  const [ready, setReady] = useState(false);
  const [reason, setReason] = useState('');
  const [leaving, setLeaving] = useState(false);
  const [again, setAgain] = useState(false);
  const { state, save } = useSave();
  const run = line.run;
  const limit = (view.facts.plan.ribbon?.settings ?? settingsOf(world.shelter)).sampleHoldMinutes;
  const minutes = bloodWaited(run?.drawnAt ?? null, around.now, limit);
  if (kit === null || run === null) {
    return (
      <>
        <div className="round-body">
          <Notice tone="stop">{say('round.start.no-kit', { what: line.name })}</Notice>
        </div>
        <Acts>
          <BigButton onAct={() => setLeaving(true)}>{say('round.not-given.open')}</BigButton>
        </Acts>
        {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
      </>
    );
  }
  const start = async (chosen: ChosenBox): Promise<void> => {
    // The press is the start: its instant is taken before anything else is done.
    const at = now();
    void unlockSound();
    const current = lineNow(round, animal.id, line.schedule);
    if (current?.run?.startedAt != null) return;
    const body = {
      run: run.run,
      schedule: line.schedule,
      kitType: kit.id as KitTypeId,
      lot: chosen.lot as LotId | null,
      kitLot: chosen.kitLot,
      conjugateLot: chosen.conjugateLot,
      outOfColdAt: chosen.outOfColdAt,
      round,
      ...(minutes === null ? {} : { waited: { minutes, limit, reason: reason.trim() } }),
    };
    await save(startTest(animal.id, kit, body, at));
  };
  if (again) {
    return (
      <>
        <ScanGuard stop={stop} />
        <DrawStep
          stop={stop}
          line={line}
          instead={{ run: run.run, note: say('round.start.draw-again') }}
          onDone={() => {
            // What was said of the old blood and its kit is not said of the new one.
            setAgain(false);
            setReason('');
            setBox(null);
          }}
          onBack={() => setAgain(false)}
        />
      </>
    );
  }
  return (
    <>
      {box === null || !ready ? (
        <div className="round-body">
          {minutes === null ? null : (
            <Notice tone="stop" live="alert">
              {say('round.start.blood-old', { minutes, limit })}
              <Field
                label={say('round.start.blood-why')}
                value={reason}
                onChange={setReason}
                lines
                maxLength={240}
                required
              />
            </Notice>
          )}
          <section className="step-card">
            <h2>{say('round.start.title', { what: line.name })}</h2>
            <ChooseBox kit={kit} boxes={boxesOf(around, kit)} value={box} onChange={setBox} />
          </section>
        </div>
      ) : null}
      {box !== null && ready ? (
        <KitSteps
          kit={kit}
          lot={box.kitLot}
          animal={animal.name || animal.label}
          state={state}
          onStart={() => start(box)}
          onBack={() => setReady(false)}
        />
      ) : (
        <Acts>
          <Trouble state={state} />
          {box === null ? null : (
            <InSight>
              <span className="part">
                {say('round.box.kit-short')} <b className="mono">{box.kitLot}</b>
              </span>
              <span className="part">
                {say('round.box.bottle-short')} <b className="mono">{box.conjugateLot}</b>
              </span>
            </InSight>
          )}
          <BigButton
            why={
              minutes !== null && reason.trim() === ''
                ? say('round.start.blood-old', { minutes, limit })
                : box === null
                  ? say('round.why.box')
                  : problemOf(kit, box, around)
            }
            onAct={() => setReady(true)}
          >
            {say('round.start.next')}
          </BigButton>
          <Pair>
            {minutes === null ? null : (
              <Act size="mid" onAct={() => setAgain(true)}>
                {say('round.start.draw-again')}
              </Act>
            )}
            <Act size="mid" onAct={() => setLeaving(true)}>
              {say('round.not-given.open')}
            </Act>
          </Pair>
        </Acts>
      )}
      {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}

/** Why the chosen box cannot be used, or null. A kit not warm yet can wait; one past its limit cannot. */
export function problemOf(kit: KitType, box: ChosenBox, around: Parameters<typeof boxesOf>[0]): string | null {
  const match = lotsMatch(kit, box.kitLot, box.conjugateLot);
  if (!match.ok) return say(match.why);
  const boxes = boxesOf(around, kit);
  const why = whyNotOfBox(boxes.find((one) => one.lot.id === box.lot) ?? boxNamed(boxes, box.kitLot));
  return why === null ? null : say(why);
}
