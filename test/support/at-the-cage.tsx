import { Router } from 'wouter';
import { memoryLocation } from 'wouter/memory-location';
import { PersonId, RoundId } from '../../src/core/ids.js';
import type { LogRecord } from '../../src/log/record.js';
import type { AnimalStop, RoundLine } from '../../src/log/views/round/round.js';
import { type OnRound, RoundAround, stopOf, useRoundOf } from '../../src/web/phone/around/use-round.js';
import { store } from '../../src/web/store/here.js';
import { setNames, setZone } from '../../src/words/say.js';
import { onPage } from './on-page.js';
import { roundId, when } from './round-log.js';
import { shelterPeople } from './shelter-log.js';

const round = RoundId.parse(roundId);
store.world.subscribe(() => setZone(store.world.get().shelter.zone));
store.people.names.subscribe(() => setNames(store.people.names.get()));

/** The store of this page with these records as the server has sent them, and somebody at work. */
async function openWith(records: readonly LogRecord[], person: string, partner: string | null): Promise<void> {
  await store.db.open();
  await Promise.all(store.db.tables.map((table) => table.clear()));
  await store.db.records.bulkPut([...records]);
  await store.db.names.bulkPut(shelterPeople.map(({ id, name, licence }) => ({ id, name, licence })));
  await store.open();
  const { phase, trouble } = store.status.get();
  if (phase !== 'ready') throw new Error(JSON.stringify(trouble));
  await store.chooseWho({
    person: PersonId.parse(person),
    partner: partner === null ? null : PersonId.parse(partner),
  });
}

/** What a step on the phone is given: the animal as it stands on the round, and the line it is about. */
export interface Step {
  readonly around: OnRound;
  readonly stop: AnimalStop;
  readonly line: RoundLine;
}

interface CageOptions {
  /** A time of the day of the round; the clock stands still. */
  readonly at?: string;
  readonly by?: string;
  readonly partner?: string | null;
  readonly animal?: string;
  readonly schedule?: string;
}

export interface Cage {
  /** What was written down since, oldest first. */
  readonly written: () => Promise<readonly LogRecord[]>;
  readonly kinds: () => Promise<readonly string[]>;
  /** Where the page has led, first to last. */
  readonly places: readonly string[];
  /** From now on the clock shows this time of the day. */
  readonly itIs: (time: string) => void;
}

/**
 * One step of a round in the browser, over the store of a real device: what is pressed is written down. The step is drawn
 * for as long as its line is on the round, also once it is done, as the screen of the animal would draw it again.
 */
export async function atTheCage(
  { records }: { readonly records: readonly LogRecord[] },
  draw: (step: Step) => React.ReactNode,
  { at = '13:40', by = 'ines', partner = 'sol', animal = 'kit-1', schedule }: CageOptions = {},
): Promise<Cage> {
  const itIs = (time: string): void => {
    window.roundhandClock = () => Date.parse(when(time));
  };
  itIs(at);
  await openWith(records, by, partner);
  const place = memoryLocation({ path: '/', record: true });
  onPage(
    <Router hook={place.hook}>
      <Around animal={animal} schedule={schedule} draw={draw} />
    </Router>,
  );
  const before = new Set(records.map(({ id }) => id));
  const written = async (): Promise<readonly LogRecord[]> =>
    (await store.db.records.toArray()).filter(({ id }) => !before.has(id)).sort((a, b) => a.deviceSeq - b.deviceSeq);
  return { written, kinds: async () => (await written()).map(({ kind }) => kind), places: place.history, itIs };
}

interface AroundProps {
  readonly animal: string;
  readonly schedule: string | undefined;
  readonly draw: (step: Step) => React.ReactNode;
}

function Around({ animal, schedule, draw }: AroundProps) {
  const around = useRoundOf(round);
  if (around === null) return <p>no such round</p>;
  const stop = stopOf(around.view, animal)?.stop;
  const line = stop?.lines.find((one) => schedule === undefined || one.schedule === schedule);
  if (stop === undefined || line === undefined) return <p>no such line</p>;
  return <RoundAround value={around}>{draw({ around, stop, line })}</RoundAround>;
}
