import { rankOrder, type SectionRank } from '../../core/biosecurity/section.js';
import type { CalendarDate } from '../../core/calendar.js';
import { dayOfInstant } from '../../core/calendar.js';
import type { Clocked } from '../../core/clocked.js';
import type { FormularyDocument } from '../../core/dosing/formulary.js';
import { LotId, type PersonId, type RoundId, type SectionId, type ShelterId } from '../../core/ids.js';
import type { NameHere, Role } from '../../core/people.js';
import type { ProtocolDocument } from '../../core/protocol/document/document.js';
import { type Said, said } from '../../core/said.js';
import type { BodyOf } from '../kinds/index.js';
import type { FastClockRow } from '../read-rows.js';
import { type LogRecord, subjectOf } from '../record.js';
import type { UnreadRecord } from '../unread.js';
import { type Filed, file, inForce, keyOf, retire, sameVersion, sign, type Versioned } from './documents/filed.js';
import { type NoneInForce, noneInForce as noneInForceOf } from './documents/in-force.js';
import { type LostDocument, lostDocuments, lostInWords } from './documents/lost-documents.js';
import { isOwnRetirement, type Retirement, retirements } from './documents/retired.js';
import { effective } from './effective.js';
import { fastClocks } from './fast-clocks.js';
import { isOwnWord, type RoleChange, roleChanges } from './roles.js';
import { foldRoundFacts, type RoundFacts } from './round-facts.js';
import { timedBy } from './timed.js';

/** A part of the shelter. */
export interface Section {
  readonly id: SectionId;
  readonly name: string;
  readonly rank: SectionRank;
  readonly position: number;
  readonly kennels: readonly string[];
  readonly wear: readonly string[];
  readonly leave: readonly string[];
  readonly contactMinutes: number;
  readonly closed: boolean;
}

export interface Person {
  readonly id: PersonId;
  readonly role: Role;
  readonly active: boolean;
  /** The roles that were given to this person, oldest first; not active from when they worked here no longer. */
  readonly roles: readonly { readonly at: string; readonly role: Role; readonly active: boolean }[];
}

/** Somebody with the name and licence by which they are known where something is shown or signed. */
export interface KnownPerson extends Person, NameHere {}

/** Tests taken out of the cold together. */
export interface KitsTakenOut {
  readonly at: string;
  /** The same instant with the clock it was taken from. */
  readonly out: Clocked;
  readonly count: number;
}

export interface Lot {
  readonly id: LotId;
  readonly of: BodyOf<'lot-received'>['of'];
  readonly lotText: string;
  readonly expires: CalendarDate | null;
  readonly receivedAt: string;
  /** As received, or as last counted. */
  readonly pieces: number;
  readonly volume_ul: number | null;
  /** From when `pieces` counts: uses before it are already in it. */
  readonly countedAt: string;
  /** Pieces since then that went into syringes made ready; those are a lot of their own. */
  readonly madeReady: number;
  readonly withdrawn: { readonly why: BodyOf<'lot-withdrawn'>['why']; readonly on: CalendarDate } | null;
  /** Syringes made ready here: by whom, written down by whom, with what, and until when they keep; null for all else. */
  readonly prepared:
    | (Omit<BodyOf<'syringes-prepared'>, 'lotText'> & { readonly by: PersonId; readonly writtenBy?: PersonId })
    | null;
  /** Tests taken out of the cold, oldest first. */
  readonly outOfCold: readonly KitsTakenOut[];
}

type Answered = Pick<BodyOf<'flag-answered'>, 'answer' | 'note'> & { readonly by: PersonId; readonly at: string };

export interface FlagAnswer {
  readonly taken: { readonly by: PersonId; readonly at: string } | null;
  readonly answered: Answered | null;
  /** The last answer by somebody who was of the medical team then. */
  readonly settled: Answered | null;
}

export interface SwitchedVariant {
  /** Null for back to the routine values. */
  readonly variant: string | null;
  readonly at: string;
  readonly why: string;
  readonly vet: PersonId;
}

/** The shelter as its records show it: everything that is not about one animal. */
export interface Shelter {
  readonly id: ShelterId | null;
  /** Null until the shelter has been set up. */
  readonly name: string | null;
  readonly zone: string;
  readonly weightUnit: 'g' | 'kg' | 'lb';
  readonly demo: boolean;
  /** Cleanest first: the order of a round. */
  readonly sections: readonly Section[];
  readonly people: readonly Person[];
  readonly protocols: readonly Filed<ProtocolDocument>[];
  readonly formularies: readonly Filed<FormularyDocument>[];
  /** Signed last, and not to be read any more: the file is damaged, or of a newer version. Nothing else is then in force. */
  readonly lost: readonly LostDocument[];
  /** Signed once, and none of its kind is in force now; what cannot be read any more is in `lost` instead. */
  readonly noneInForce: readonly NoneInForce[];
  /** The signed ones in force; null when none is signed. */
  readonly protocol: ProtocolDocument | null;
  readonly formulary: FormularyDocument | null;
  readonly lots: ReadonlyMap<LotId, Lot>;
  readonly rounds: ReadonlyMap<RoundId, RoundFacts>;
  readonly answers: ReadonlyMap<string, FlagAnswer>;
  /** Variants of the protocol that are switched on: by section id, `all` for the whole shelter. */
  readonly variants: ReadonlyMap<string, SwitchedVariant>;
  readonly files: readonly (BodyOf<'file-imported'> & { readonly at: string })[];
  /** Devices that had to send records again to a server whose records were put back from an older copy. */
  readonly sentAgain: readonly (BodyOf<'records-sent-again'> & { readonly at: string; readonly by: PersonId })[];
  /** Records that stand and count from when they came in, because they were stamped later than that. */
  readonly late: readonly LogRecord[];
  /** Of each device and day the first record that its measured clock has put right. */
  readonly fastClocks: readonly FastClockRow[];
  /** Changes of roles, also those that were taken back. */
  readonly roleChanges: readonly RoleChange[];
  /** What was signed and was retired without a licence, also where that was taken back. */
  readonly retirements: readonly Retirement[];
}

export const noShelter: Shelter = {
  id: null,
  name: null,
  zone: 'UTC',
  weightUnit: 'g',
  demo: false,
  sections: [],
  people: [],
  protocols: [],
  formularies: [],
  lost: [],
  noneInForce: [],
  protocol: null,
  formulary: null,
  lots: new Map(),
  rounds: new Map(),
  answers: new Map(),
  variants: new Map(),
  files: [],
  sentAgain: [],
  late: [],
  fastClocks: [],
  roleChanges: [],
  retirements: [],
};

/**
 * Fold the records that are not about animals, in any order. Total: what does not fit is left out, never thrown. `unread`
 * is what can be told of records that cannot be read.
 */
export function foldShelter(records: readonly LogRecord[], unread: readonly UnreadRecord[] = []): Shelter {
  const standing = effective(records);
  const timed = timedBy(records);
  let head = noShelter;
  const sections = new Map<string, Section>();
  const people = new Map<string, Person>();
  const protocols = new Map<string, Filed<ProtocolDocument>>();
  const formularies = new Map<string, Filed<FormularyDocument>>();
  const signedLast = new Map<LostDocument['document'], LostDocument & Versioned>();
  const lots = new Map<LotId, Lot>();
  const rounds = new Map<RoundId, RoundFacts>();
  const answers = new Map<string, FlagAnswer>();
  const variants = new Map<string, SwitchedVariant>();
  const files: Shelter['files'][number][] = [];
  const sentAgain: Shelter['sentAgain'][number][] = [];
  const changes = roleChanges(records);
  const retired = retirements(records);

  for (const record of beginningsFirst(standing)) {
    switch (record.kind) {
      case 'shelter-described':
        head = { ...head, id: record.shelter, ...record.body };
        break;
      case 'section-described': {
        const { section, ...rest } = record.body;
        sections.set(section, { id: section, ...rest });
        break;
      }
      case 'person-described': {
        const { person, ...rest } = record.body;
        const roles = [...(people.get(person)?.roles ?? []), { at: record.happenedAt, ...rest }];
        people.set(person, { id: person, ...rest, roles });
        break;
      }
      case 'protocol-filed':
        file(protocols, record.body.protocol, record.happenedAt);
        break;
      case 'formulary-filed':
        file(formularies, record.body.formulary, record.happenedAt);
        break;
      case 'document-signed': {
        const { document, id, version, ...signature } = record.body;
        signedLast.set(document, { document, id, version });
        if (document === 'protocol') sign(protocols, id, version, signature);
        else sign(formularies, id, version, signature);
        break;
      }
      case 'document-retired':
        if (sameVersion(signedLast.get(record.body.document), record.body)) signedLast.delete(record.body.document);
        if (record.body.document === 'protocol') retire(protocols, record.body.id, record.body.version);
        else retire(formularies, record.body.id, record.body.version);
        break;
      case 'lot-received':
      case 'syringes-prepared':
      case 'lot-counted':
      case 'lot-withdrawn':
      case 'kits-out-of-cold':
        foldLot(lots, record, timed);
        break;
      case 'round-planned':
      case 'round-begun':
      case 'team-changed':
      case 'section-entered':
      case 'section-left':
      case 'gloves-changed':
      case 'handed-back':
      case 'hand-back-accepted':
        foldRoundFacts(rounds, record, timed);
        break;
      case 'flag-taken':
      case 'flag-answered':
        foldAnswer(answers, record, people, changes, retired);
        break;
      case 'variant-switched': {
        const { section, variant, why, vet } = record.body;
        variants.set(section ?? 'all', { variant, why, vet, at: record.happenedAt });
        break;
      }
      case 'file-imported':
        files.push({ ...record.body, at: record.happenedAt });
        break;
      case 'records-sent-again':
        sentAgain.push({ ...record.body, at: record.happenedAt, by: record.by });
        break;
      default:
        break;
    }
  }

  const isFiled = ({ document, id, version }: LostDocument & Versioned): boolean =>
    (document === 'protocol' ? protocols : formularies).has(keyOf(id, version));
  const lost = lostDocuments(records, standing, unread, signedLast, isFiled);
  // The one signed last is the one in force: no earlier one when it was taken back, none when it is not to be read.
  const holds = (document: LostDocument['document']): boolean => {
    const last = signedLast.get(document);
    return !lost.some((one) => one.document === document) && (last === undefined || isFiled(last));
  };
  const protocol = holds('protocol') ? inForce(protocols) : null;
  const formulary = holds('formulary') ? inForce(formularies) : null;
  const noneInForce = [
    protocol === null ? noneInForceOf(records, 'protocol') : null,
    formulary === null ? noneInForceOf(records, 'formulary') : null,
  ].filter((one) => one !== null && !lost.some(({ document }) => document === one.document)) as NoneInForce[];

  return {
    ...head,
    sections: [...sections.values()].sort(
      (a, b) => rankOrder(a.rank) - rankOrder(b.rank) || a.position - b.position || (a.name < b.name ? -1 : 1),
    ),
    people: [...people.values()].sort((a, b) => (a.id < b.id ? -1 : 1)),
    protocols: [...protocols.values()],
    formularies: [...formularies.values()],
    lost,
    noneInForce,
    protocol,
    formulary,
    lots: withMadeReady(lots),
    rounds,
    answers,
    roleChanges: changes,
    retirements: retired,
    variants,
    files,
    sentAgain,
    late: standing.filter((record) => record.said?.by === 'arrival'),
    fastClocks: fastClocks('', records),
  };
}

/**
 * What everything else about a round or a lot hangs on comes first, whatever the clocks said: a phone that is minutes slow
 * begins a round before the desk, by its own clock, has planned it.
 */
const beginnings: ReadonlySet<LogRecord['kind']> = new Set(['round-planned', 'lot-received', 'syringes-prepared']);
const beginningsFirst = (standing: readonly LogRecord[]): LogRecord[] => [
  ...standing.filter((record) => beginnings.has(record.kind)),
  ...standing.filter((record) => !beginnings.has(record.kind)),
];

type LotRecord = LogRecord<'lot-received' | 'syringes-prepared' | 'lot-counted' | 'lot-withdrawn' | 'kits-out-of-cold'>;

function foldLot(lots: Map<LotId, Lot>, record: LotRecord, timed: (record: LogRecord) => Clocked): void {
  const id = LotId.parse(subjectOf(record).id);
  if (record.kind === 'lot-received') {
    const { of, lotText, expires, pieces, volume_ul } = record.body;
    lots.set(id, {
      id,
      of,
      lotText,
      expires,
      receivedAt: record.happenedAt,
      pieces,
      volume_ul,
      countedAt: record.happenedAt,
      withdrawn: null,
      prepared: null,
      madeReady: 0,
      outOfCold: [],
    });
    return;
  }
  if (record.kind === 'syringes-prepared') {
    const { lotText, ...prepared } = record.body;
    const { by, writtenBy, happenedAt: at } = record;
    lots.set(id, {
      id,
      of: { is: 'supply', name: prepared.with, readyToDraw: true },
      lotText,
      expires: prepared.keepsUntil === null ? null : dayOfInstant(prepared.keepsUntil, record.zone),
      receivedAt: at,
      pieces: prepared.count,
      volume_ul: null,
      countedAt: at,
      withdrawn: null,
      prepared: { ...prepared, by, ...(writtenBy === undefined ? {} : { writtenBy }) },
      madeReady: 0,
      outOfCold: [],
    });
    return;
  }
  const lot = lots.get(id);
  if (lot === undefined) return;
  if (record.kind === 'lot-counted') {
    lots.set(id, {
      ...lot,
      pieces: record.body.pieces,
      volume_ul: record.body.volume_ul,
      countedAt: record.happenedAt,
    });
  } else if (record.kind === 'lot-withdrawn') {
    const on = dayOfInstant(record.happenedAt, record.zone);
    lots.set(id, { ...lot, withdrawn: { why: record.body.why, on } });
  } else {
    const out = { at: record.happenedAt, out: timed(record), count: record.body.count };
    lots.set(id, { ...lot, outOfCold: [...lot.outOfCold, out] });
  }
}

function withMadeReady(lots: ReadonlyMap<LotId, Lot>): Map<LotId, Lot> {
  const all = new Map(lots);
  for (const { prepared, receivedAt } of lots.values()) {
    const from = prepared?.syringeLot == null ? undefined : all.get(prepared.syringeLot);
    if (prepared === null || from === undefined || receivedAt < from.countedAt) continue;
    all.set(from.id, { ...from, madeReady: from.madeReady + prepared.count });
  }
  return all;
}

function foldAnswer(
  answers: Map<string, FlagAnswer>,
  record: LogRecord<'flag-taken' | 'flag-answered'>,
  people: ReadonlyMap<string, Person>,
  changes: readonly RoleChange[],
  retired: readonly Retirement[],
): void {
  const before = answers.get(record.body.flag) ?? { taken: null, answered: null, settled: null };
  const who = { by: record.by, at: record.happenedAt };
  const isMedical = (one: string): boolean => people.get(one)?.role === 'medical' && people.get(one)?.active === true;
  const { flag } = record.body;
  const own = isOwnWord(changes, flag, record, isMedical) || isOwnRetirement(retired, flag, record);
  if (record.kind === 'flag-taken' || own) {
    answers.set(record.body.flag, { ...before, taken: who });
  } else {
    const { answer, note } = record.body;
    const answered = { answer, note, ...who };
    const hands = [record.by, record.writtenBy ?? record.by];
    const settled = hands.every(isMedical) ? answered : before.settled;
    answers.set(record.body.flag, { ...before, answered, settled });
  }
}

/** Why nothing can be worked out by the shelter's documents; null when both are in force. */
export const whyNoDocuments = (shelter: Shelter): Said | null =>
  lostInWords(shelter) ?? (shelter.protocol === null || shelter.formulary === null ? said('log.nothing-signed') : null);

export const sectionOf = ({ sections }: Pick<Shelter, 'sections'>, id: string | null): Section | null =>
  sections.find((section) => section.id === id) ?? null;
