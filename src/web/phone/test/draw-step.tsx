import { useState } from 'react';
import type { KitType } from '../../../core/dosing/formulary.js';
import { RunId } from '../../../core/ids.js';
import { lookBackDays, tooMuchBlood } from '../../../core/point-of-care/blood.js';
import { writeVolume } from '../../../core/quantity/write.js';
import { said } from '../../../core/said.js';
import { boxesOf } from '../../../log/bedside/kit-needs.js';
import { nextKit } from '../../../log/bedside/kits-ready.js';
import { drawAgain, drawSample } from '../../../log/commands/round.js';
import { kitFor } from '../../../log/prepare/item-needs.js';
import { isReadyToDraw } from '../../../log/stock/ready-syringes.js';
import { bloodLedger } from '../../../log/views/blood-tests/blood.js';
import { bloodTogether } from '../../../log/views/blood-tests/shared-draw.js';
import { isLeft } from '../../../log/views/round/is-left.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { dueIn } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { unlockSound } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { Figure } from '../../parts/figure.js';
import { Notice, State } from '../../parts/state.js';
import { newId } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Acts, InSight, NobodyHolds, Pair, Trouble } from '../around/bits.js';
import { BoxLine, useSyringeBox } from '../around/box-line.js';
import { Counter } from '../around/counter.js';
import { NotGivenSheet } from '../around/not-given.js';
import { lineNow, useRound } from '../around/use-round.js';

interface DrawStepProps {
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  readonly onDone?: () => void;
  /** Blood that waited too long: given up with the first draw that takes its place. */
  readonly instead?: { readonly run: RunId; readonly note: string };
  readonly onBack?: () => void;
}

/** Blood first: how much at least, how much at most, and a failed draw counts too. */
export function DrawStep({ stop, line, onDone, instead, onBack }: DrawStepProps) {
  const { animal } = stop;
  const { world, round, now: at, today } = useRound();
  const item = dueIn(world, animal, today).find((one) => one.schedule === line.schedule);
  const kit = (item === undefined ? null : kitFor(world, item)) ?? world.shelter.formulary?.kits[0] ?? null;
  const least = kit?.sample_ul ?? 0;
  const [volume, setVolume] = useState<number | null>(null);
  const [leaving, setLeaving] = useState(false);
  const { state, save } = useSave();
  const [already, setAlready] = useState(false);
  const from = useSyringeBox('ready-to-draw', isReadyToDraw);
  const { draws, allowance, grams, ill } = bloodLedger(world, animal, at);
  const rules = world.shelter.formulary?.blood ?? null;
  // One draw serves all tests of the animal, where so much may be drawn.
  const together = Math.max(least, bloodTogether(world, stop.lines, line.schedule));
  const forAll = together > least && (allowance === null || tooMuchBlood(together, allowance) === null);
  const drawn = volume ?? (forAll ? together : least);
  const tooMuch = allowance === null ? null : tooMuchBlood(drawn, allowance);
  // Before the needle: what the test needs at least would already pass a limit, or nobody has said what the limit is.
  const notNow =
    rules === null ? said('drawup.blood.no-rule') : allowance === null ? null : tooMuchBlood(least, allowance);
  const stopped = notNow !== null && !already;
  const failed = draws.filter((draw) => draw.run === unfinishedRun(stop, line)).length;
  const record = async (usable: boolean): Promise<void> => {
    void unlockSound();
    const current = lineNow(round, animal.id, line.schedule);
    if (onDone === undefined && (current === null || !isLeft(current) || current.run?.drawnAt != null)) return;
    if (instead !== undefined && current?.run?.run !== instead.run) return;
    const run = RunId.parse(unfinishedRun(stop, line) ?? newId());
    const sample = kit?.samples[0] ?? 'whole-blood';
    const syringeLot = from.box?.lot.id ?? null;
    const body = { run, schedule: line.schedule, volume_ul: drawn, usable, sample, syringeLot, round };
    const drafts =
      instead === undefined ? drawSample(animal.id, body, now()) : drawAgain(animal.id, instead, body, now());
    const saved = await save(drafts);
    if (saved !== null && usable) onDone?.();
  };
  return (
    <>
      <div className="round-body">
        <section className="step-card">
          <h2>{say('round.draw.title', { what: line.name })}</h2>
          <NobodyHolds />
          <p className="how">{say('round.draw.how', { least: { microlitres: least } })}</p>
          {forAll ? <p className="how">{say('round.draw.for-all', { together: { microlitres: together } })}</p> : null}
          {stopped ? (
            <Notice tone="stop" live="alert">
              {say(notNow)} {say('drawup.blood.no-needle')}
            </Notice>
          ) : (
            <Counter
              label={say('round.draw.volume')}
              value={drawn}
              least={0}
              most={2_000}
              step={50}
              write={writeVolume}
              onChange={setVolume}
            />
          )}
          <BoxLine {...from} />
          {kit === null ? null : <WarmKit kit={kit} />}
          {allowance === null ? (
            <p className="how">{grams === null ? say('round.draw.no-weight') : null}</p>
          ) : (
            <p className="how">{say('round.draw.left', { left: { microlitres: allowance.left_ul } })}</p>
          )}
          {draws.length === 0 || rules === null ? null : (
            <p className="how">
              {say('drawup.blood.ledger', {
                days: lookBackDays(rules),
                drawn: { microlitres: allowance?.limits.at(-1)?.drawn_ul ?? 0 },
              })}
            </p>
          )}
          {ill ? <p className="how">{say('drawup.blood.ill')}</p> : null}
          {failed === 0 ? null : <Notice tone="attention">{say('round.draw.failed-before', { count: failed })}</Notice>}
          <div className="note-line">
            <span className="g" aria-hidden="true">
              △
            </span>
            <span>{say('round.draw.keep')}</span>
          </div>
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        {stopped ? (
          <>
            <BigButton onAct={() => setLeaving(true)}>{say('drawup.blood.do-not-draw')}</BigButton>
            <Act size="mid" onAct={() => setAlready(true)}>
              {say('drawup.blood.already')}
            </Act>
          </>
        ) : (
          <>
            {tooMuch === null ? null : (
              <Notice tone="stop" live="alert">
                {say(tooMuch)}
              </Notice>
            )}
            <InSight>
              <b className="amount">
                <Figure text={writeVolume(drawn)} />
              </b>
              <span className="part">{say('round.draw.least-short', { least: { microlitres: least } })}</span>
              {allowance === null ? null : (
                <span className="part soft">
                  {say('round.draw.most-short', { most: { microlitres: allowance.left_ul } })}
                </span>
              )}
              {kit === null ? null : <WarmKit kit={kit} short />}
            </InSight>
            <BigButton
              why={drawn < least ? say('round.draw.little', { least: { microlitres: least } }) : null}
              onAct={() => record(true)}
            >
              {say('round.draw.usable')}
            </BigButton>
            <Pair>
              <Act size="mid" onAct={() => setLeaving(true)}>
                {say('round.not-given.open')}
              </Act>
              <Act size="mid" onAct={() => record(false)}>
                {say('round.draw.failed')}
              </Act>
            </Pair>
            {onBack === undefined ? null : (
              <Act size="mid" onAct={onBack}>
                {say('round.back')}
              </Act>
            )}
          </>
        )}
      </Acts>
      {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}

/** A run of this round whose draws have all failed so far: the next draw belongs to it. */
function unfinishedRun({ animal }: AnimalStop, line: RoundLine): string | null {
  const run = animal.runs.findLast((one) => one.schedule === line.schedule && one.result === 'running');
  return run !== undefined && run.drawnAt === null && run.startedAt === null ? run.run : null;
}

/** Blood waits for nobody: it is drawn when a test is warm, not before. `short`: beside the button. */
function WarmKit({ kit, short = false }: { kit: KitType; short?: boolean }) {
  const around = useRound();
  const next = nextKit(boxesOf(around, kit).flatMap((box) => box.out));
  const readiness = next?.readiness ?? null;
  if (readiness !== null && readiness.is !== 'warming') return null;
  const at = readiness === null ? null : { instant: readiness.readyAt };
  if (short) {
    return (
      <State tone="stop">
        {at === null ? say('round.draw.none-out-short') : say('round.draw.no-warm-kit-short', { at })}
      </State>
    );
  }
  return (
    <Notice tone="stop">{at === null ? say('round.draw.none-out') : say('round.draw.no-warm-kit', { at })}</Notice>
  );
}
