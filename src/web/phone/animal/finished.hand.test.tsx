import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { drawn, entered, roundId, roundLog, started, when } from '../../../../test/support/round-log.js';
import { dueIn } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { Finished } from './finished.js';
import { KeptApart } from './kept-apart.js';
import { TellNow } from './tell-now.js';
import { WaitStep } from './wait-step.js';

const button = (name: string) => page.getByRole('button', { name, exact: true });

describe('the protocol says not now', () => {
  /** A kitten whose treatments are held until the fifth. */
  async function cage() {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const hold = { schedules: 'all', code: 'veterinarian', from: '2026-03-01', until: '2026-03-05', note: '' };
    log.one('hold-placed', 'animal:kit-1', hold as never, when('11:00'));
    const onGoOn = vi.fn();
    const at = await atTheCage(log, ({ around, stop, line }) => {
      const item = dueIn(around.world, stop.animal, around.today).find(({ schedule }) => schedule === line.schedule);
      if (item === undefined || line.state !== 'open') return <p>{`line ${line.state}`}</p>;
      return <WaitStep stop={stop} line={line} item={item} onGoOn={onGoOn} />;
    });
    return { ...at, onGoOn };
  }

  it('left for today it is written down once, with the reason that stood there', async () => {
    const { written } = await cage();
    await expect.element(page.getByText(/5 March|March 5|05\/03|2026-03-05/).first()).toBeVisible();
    await button(say('round.wait.leave')).dblClick();
    await expect.element(page.getByText('line not-done')).toBeVisible();
    const records = await written();
    expect(records).toHaveLength(1);
    expect(records[0]).toMatchObject({ kind: 'treatment-not-given', body: { schedule: 'roundworm', round: roundId } });
  });

  it('gone on with all the same, nothing is written down by that press', async () => {
    const { written, onGoOn } = await cage();
    await button(say('round.wait.go-on')).dblClick();
    expect(onGoOn).toHaveBeenCalledOnce();
    expect(await written()).toEqual([]);
  });
});

describe('nothing more to do by hand', () => {
  it('says what became of the line and leads to the next animal, once, and a scan opens the one that is scanned', async () => {
    const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'], 'kit-3': ['roundworm'] });
    entered(log);
    const code = '900000000000018';
    const scan = { target: 'animal', occasion: 'intake', found: { raw: code, code, class: 'iso' }, passes: 1 };
    log.one('chip-scanned', 'animal:kit-3', { ...scan, round: null } as never, when('10:31'));
    const no = { schedule: 'roundworm', reason: 'refused-or-escaped', note: '', dueAt: null, round: roundId };
    log.one('treatment-not-given', 'animal:kit-1', no as never, when('13:39'));
    const { places } = await atTheCage(log, ({ stop }) => <Finished stop={stop} onHandsOn={null} />);
    await expect.element(page.getByText(say('not-given.refused-or-escaped'))).toBeVisible();
    await expect.element(page.getByText(say('round.line.done'), { exact: true })).not.toBeInTheDocument();
    await button(say('round.next-animal', { animal: 'Kit 2' })).dblClick();
    expect(places.slice(1)).toEqual([`/round/${roundId}/animal/kit-2`]);
    scans.hear(code);
    await expect.poll(() => places.at(-1)).toBe(`/round/${roundId}/animal/kit-3`);
  });

  it('a test that did not work is drawn again, not before the animal is made sure of', async () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    entered(log);
    log.one('animal-weighed', 'animal:kit-1', { grams: 1500, entered: '1500 g' }, when('12:00'));
    drawn(log, 1, '13:31');
    started(log, 1, '13:32');
    const seen = { control: 'not-seen', antigen: 'not-seen', invalid: 'seen' };
    log.one('test-read', 'animal:kit-1', { run: 'run-1', seen, round: roundId } as never, when('13:41'));
    const onHandsOn = vi.fn();
    const { written } = await atTheCage(log, ({ stop }) => <Finished stop={stop} onHandsOn={onHandsOn} />, {
      at: '13:42',
    });
    await page.getByRole('button', { name: new RegExp(say('round.finished.repeat', { what: '.*' })) }).dblClick();
    expect(onHandsOn).toHaveBeenCalledOnce();
    await expect.element(button(say('round.draw.usable'))).not.toBeInTheDocument();
    expect(await written()).toEqual([]);
  });

  it('a sign of illness noted today is said at the cage, with who is told; one of yesterday is not said again', async () => {
    const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
    const ill = { code: 'ill', state: 'present', on: '2026-03-01', round: null };
    log.one('observation-noted', 'animal:kit-1', ill as never, when('12:00'));
    await atTheCage(log, ({ around }) => {
      const animals = around.view.stops.flatMap((one) => one.animals);
      return (
        <>
          {animals.map((stop) => (
            <section key={stop.animal.id} aria-label={stop.animal.name}>
              <p>{stop.animal.name}</p>
              <TellNow stop={stop} />
              <KeptApart animal={stop.animal} />
            </section>
          ))}
        </>
      );
    });
    const of = (name: string) => page.getByRole('region', { name, exact: true });
    await expect.element(of('Kit 1')).toHaveTextContent(/Kit 1.{20}/);
    expect(of('Kit 2').element().textContent).toBe('Kit 2');
  });
});
