import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { entered, roundId, roundLog, when } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { scans } from '../../scan/scan-queue.js';
import { Home } from '../round/home.js';
import { SectionScreen } from '../round/section.js';
import { ScanOpens } from './scan-opens.js';

const [own, others, nobodys] = ['900000000000017', '900000000000018', '900000000000019'];
const answer = page.getByRole('alert');

interface Shelter {
  /** The chip of each kitten, from the first one on. */
  readonly chips?: readonly string[];
  readonly inside?: boolean;
}

/** Two kittens on the round; the team is in the nursery unless said otherwise. */
function list({ chips = [own, others], inside = true }: Shelter, draw: React.ReactNode = <ScanOpens />) {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
  if (inside) entered(log);
  for (const [place, code] of chips.entries()) {
    const scan = { target: 'animal', occasion: 'intake', found: { raw: code, code, class: 'iso' }, passes: 1 };
    log.one('chip-scanned', `animal:kit-${place + 1}`, { ...scan, round: null } as never, when('10:31'));
  }
  return atTheCage(log, () => (
    <>
      <p>the list</p>
      {draw}
    </>
  ));
}
const ready = () => expect.element(page.getByText('the list')).toBeVisible();

describe('a chip scanned on a list', () => {
  it('opens the animal that carries it and makes sure of it, with one record of each however fast the trigger', async () => {
    const { kinds, places, written } = await list({});
    await ready();
    scans.hear(others);
    await expect.poll(() => places.at(-1)).toBe(`/round/${roundId}/animal/kit-2`);
    expect(await kinds()).toEqual(['chip-scanned', 'animal-identified']);
    for (const { subject } of await written()) expect(subject).toBe('animal:kit-2');
  });

  it('says whose it is, records nothing and stays, before the door and for a number of nobody', async () => {
    const { written, places } = await list({ inside: false });
    await ready();
    scans.hear(own);
    await expect.element(answer).toHaveTextContent('Kit 1');
    scans.hear(nobodys);
    await expect.element(answer).not.toHaveTextContent('Kit 1');
    scans.hear('90000000000');
    await expect.element(answer).toBeVisible();
    expect(await written()).toEqual([]);
    expect(places).toEqual(['/']);
  });

  it('that two animals have on record opens neither: both are named', async () => {
    const { written, places } = await list({ chips: [own, own] });
    await ready();
    scans.hear(own);
    await expect.element(answer).toHaveTextContent('Kit 1');
    await expect.element(answer).toHaveTextContent('Kit 2');
    expect(await written()).toEqual([]);
    expect(places).toEqual(['/']);
  });
});

describe('the lists themselves', () => {
  it('a section from outside asks for the door first, and inside leads to the first animal', async () => {
    const { places } = await list({}, <SectionScreen section="nursery" />);
    await page.getByRole('button', { name: say('round.next-animal', { animal: 'Kit 1' }) }).dblClick();
    expect(places.slice(1)).toEqual([`/round/${roundId}/animal/kit-1`]);
  });

  it('a round is begun once by an impatient thumb, and somebody who is not of the team is told whose it is', async () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const planned = log.records.filter(({ kind }) => kind !== 'round-begun');
    const { kinds } = await atTheCage({ records: planned }, () => <Home wake="held" onTeam={() => undefined} />, {
      by: 'vera',
      partner: null,
    });
    await expect
      .element(page.getByText(say('round.team.other', { person: 'Vera', treater: 'Ines', holder: 'Sol' })))
      .toBeVisible();
    await page.getByRole('button', { name: say('round.begin') }).dblClick();
    await expect.element(page.getByRole('button', { name: say('round.begin') })).not.toBeInTheDocument();
    expect(await kinds()).toEqual(['round-begun']);
  });
});
