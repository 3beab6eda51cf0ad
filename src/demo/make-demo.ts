import type { Photo } from '../core/animal/photo.js';
import { addDays, type CalendarDate, dayOfInstant } from '../core/calendar.js';
import type { FormularyDocument } from '../core/dosing/formulary.js';
import { AnimalId, DeviceId, PersonId, SectionId, ShelterId } from '../core/ids.js';
import type { ProtocolDocument } from '../core/protocol/document/document.js';
import type { PrivatePerson } from '../log/private-side.js';
import type { LogRecord } from '../log/record.js';
import { arrive, comersOn, depart, firstDay, moveHome } from './arrivals.js';
import { weighYoung } from './carers.js';
import { cast } from './cast.js';
import { chanceFrom } from './chance.js';
import { answerFlags, hangSigns, orderByTelephone, takeFlags } from './desk.js';
import { bringInFile, changeSmallThings, giveTwice, holdFlea, whatIsSeen } from './events.js';
import { inUse } from './in-use.js';
import { instantOf, msOf } from './instant.js';
import { openJournal } from './journal.js';
import { idMaker } from './new-id.js';
import { castPeople, type Devices, type People, type PersonKey, pairs, privatePeople, sickPair } from './people.js';
import { readySyringes } from './ready-syringes.js';
import { acceptRound, workRound } from './rounds.js';
import type { Scene } from './scene.js';
import { fileDraft, setUp } from './setup.js';
import { weighedYesterday } from './slips.js';
import { receiveStock } from './stock.js';
import { mindStock } from './stock-take.js';
import type { WardKey, Wards } from './wards.js';
import { wards } from './wards.js';

export interface DemoOptions {
  /** The day the demo is looked at; everything in it happened before. */
  readonly today: CalendarDate;
  /** Instant, UTC text, on that day. */
  readonly now: string;
  readonly zone?: string;
  readonly seed?: number;
  /** Names of the drawn pictures (drawn.ts), by key of the cast; nobody has a photo when left out. */
  readonly photos?: Readonly<Record<string, Photo>>;
  readonly protocol: ProtocolDocument;
  readonly formulary: FormularyDocument;
}

/** A shelter as it begins: what goes into the log, and who its people are, beside it. */
export interface Demo {
  readonly records: LogRecord[];
  readonly people: readonly PrivatePerson[];
}

/** Days ago of the rounds through all clean sections: twice a week, and today would be the next one. */
const roundDays: readonly number[] = [42, 39, 35, 32, 28, 25, 21, 18, 14, 11, 7, 4];
const cleanSections: readonly WardKey[] = ['kittens-a', 'kittens-b', 'ward', 'foster'];
const sickSections: readonly WardKey[] = ['quarantine', 'isolation'];

/**
 * The invented shelter: six weeks of work up to yesterday, made by the commands that people use, from a seed. The same
 * options give the same records, byte for byte, in the order in which they were written down. Everything in it is
 * invented. Throws when `now` is not on `today` in the zone, or when a document lacks what the story needs.
 */
export function makeDemo(options: DemoOptions): Demo {
  const { today, now } = options;
  const protocol = inUse(options.protocol);
  const zone = options.zone ?? 'UTC';
  if (dayOfInstant(now, zone) !== today) throw new Error(`${now} is not on ${today} in ${zone}`);
  const scene = openScene(options, zone);
  const formulary = setUp(scene, protocol, options.formulary);
  for (let daysAgo = firstDay; daysAgo >= 1; daysAgo -= 1) workDay(scene, daysAgo, protocol, formulary);
  return { records: scene.journal.records(), people: privatePeople(scene.people) };
}

function openScene({ today, now, seed = 1, photos = {} }: DemoOptions, zone: string): Scene {
  const newId = idMaker(chanceFrom(seed + 7_919));
  const start = msOf(`${addDays(today, -firstDay - 1)}T00:00:00Z`);
  const id = (): string => newId(start);
  const shelter = ShelterId.parse(id());
  const people = Object.fromEntries(castPeople.map(({ key }) => [key, PersonId.parse(id())])) as Record<
    PersonKey,
    PersonId
  > satisfies People;
  const devices: Devices = {
    desk: DeviceId.parse(id()),
    phoneA: DeviceId.parse(id()),
    phoneB: DeviceId.parse(id()),
    carer: DeviceId.parse(id()),
  };
  const sections = Object.fromEntries(wards.map(({ key }) => [key, SectionId.parse(key)])) as Record<
    WardKey,
    SectionId
  > satisfies Wards;
  const animals = new Map(cast.map(({ key }) => [key, AnimalId.parse(id())]));
  const journal = openJournal({ shelter, zone, today, now: instantOf(msOf(now)), newId });
  return { journal, chance: chanceFrom(seed), people, devices, wards: sections, animals, photos };
}

/** One day, from the carer's scale in the morning to the desk in the evening. */
function workDay(scene: Scene, daysAgo: number, protocol: ProtocolDocument, formulary: FormularyDocument): void {
  const clean = roundDays.indexOf(daysAgo);
  const yesterday = daysAgo === 1;
  if (clean < 0) weighYoung(scene, daysAgo);
  receiveStock(scene, daysAgo, protocol, formulary);
  readySyringes(scene, daysAgo);
  if (daysAgo === firstDay) arrive(scene, daysAgo);
  moveHome(scene, daysAgo);

  const rounds = [];
  const pair = pairs[clean % pairs.length] ?? pairs[0] ?? sickPair;
  if (clean >= 0) {
    const back =
      daysAgo === 25
        ? { goBack: { section: 'kittens-b', because: 'A kitten had been left out on the list.' } as const }
        : {};
    const base = { daysAgo, time: '09:10', sections: cleanSections, pair, device: 'phoneA' } as const;
    rounds.push(workRound(scene, { ...base, ...back }));
  }
  if (yesterday) {
    const base = {
      daysAgo,
      time: '09:30',
      pair: ['mina', 'jonas'],
      device: 'phoneA',
      alsoWeigh: weighedYesterday,
    } as const;
    const note = 'Kitten rooms not reached; they are for tomorrow.';
    workRound(scene, { ...base, sections: ['ward', 'foster'], note });
  }
  mindStock(scene, daysAgo, protocol, formulary);
  if (daysAgo === 3) fileDraft(scene, daysAgo, protocol);
  if (daysAgo !== firstDay && comersOn(daysAgo).length > 0) {
    arrive(scene, daysAgo);
    holdFlea(scene, daysAgo);
  }
  if (comersOn(daysAgo).length > 0 || yesterday) {
    rounds.push(
      workRound(scene, { daysAgo, time: '14:20', sections: ['intake'], pair: ['rosa', 'mina'], device: 'phoneA' }),
    );
  }
  changeSmallThings(scene, daysAgo);
  if (daysAgo === 2) bringInFile(scene, daysAgo);
  if (yesterday) giveTwice(scene, daysAgo, 'kestrel');
  if (clean >= 0 || yesterday || comersOn(daysAgo).some((one) => one.home === 'quarantine')) {
    rounds.push(workRound(scene, { daysAgo, time: '16:00', sections: sickSections, pair: sickPair, device: 'phoneB' }));
  }
  depart(scene, daysAgo);
  whatIsSeen(scene, daysAgo);
  for (const [index, round] of rounds.entries()) {
    if (round !== null) acceptRound(scene, round, daysAgo, `17:0${index + 2}`);
  }
  if (yesterday) hangSigns(scene, daysAgo);
  if (yesterday) takeFlags(scene, daysAgo, ['expired-lot']);
  else answerFlags(scene, daysAgo);
  if (yesterday) orderByTelephone(scene, daysAgo);
}
