import type { BodyInput, Kind } from '../../src/log/kinds/index.js';
import { type Draft, draft } from '../../src/log/record.js';
import { at, kitten } from './log.js';
import { starterFormulary, starterProtocol } from './shelter-log.js';

const noon = at('2026-03-02', '12:00');
const kit = 'animal:kit-1';
const onRound = { round: 'round-1' } as const;
const version = { id: 'starter', version: '2' } as const;

/** One record of every kind there is, about the shelter of shelter-log.ts. A kind that is missing here does not compile. */
const each: Readonly<Record<Kind, { readonly subject: string; readonly body: object }>> = {
  'shelter-described': {
    subject: 'shelter:self',
    body: { name: 'Other name', zone: 'UTC', weightUnit: 'kg', demo: false },
  },
  'section-described': {
    subject: 'section:attic',
    body: {
      section: 'attic',
      name: 'Attic',
      rank: 'intake',
      position: 4,
      kennels: [],
      wear: [],
      leave: [],
      contactMinutes: 5,
    },
  },
  'person-described': { subject: 'person:pat', body: { person: 'pat', role: 'volunteer' } },
  'protocol-filed': { subject: 'document:starter', body: { protocol: { ...starterProtocol, version: '2' } } },
  'formulary-filed': {
    subject: 'document:starter-formulary',
    body: { formulary: { ...starterFormulary, version: '2' } },
  },
  'document-signed': {
    subject: 'document:starter',
    body: { ...version, document: 'protocol', signer: 'Vera', licence: 'Invented 1', on: '2026-03-02', statement: '' },
  },
  'document-retired': {
    subject: 'document:starter',
    body: { id: 'starter', version: '0', document: 'protocol', why: 'old' },
  },
  'animal-taken-in': { subject: 'animal:kit-9', body: kitten('Kit 9', '2026-01-20', { label: '009' }) },
  'animal-described': { subject: kit, body: { notes: 'shy' } },
  'animal-moved': {
    subject: kit,
    body: { section: 'quarantine', kennel: 'Q1', from: { section: 'nursery', kennel: 'N1' } },
  },
  'sign-set': { subject: kit, body: { hangs: true, section: 'nursery', kennel: 'N1' } },
  'animal-left': { subject: 'animal:kit-2', body: { how: 'adopted', on: '2026-03-02' } },
  'animal-weighed': { subject: kit, body: { grams: 620, entered: '620 g' } },
  'observation-noted': { subject: kit, body: { code: 'fever', state: 'present', on: '2026-03-02' } },
  'hold-placed': { subject: kit, body: { schedules: 'all', code: 'vet-hold', from: '2026-03-02', until: null } },
  'hold-lifted': { subject: kit, body: { hold: 'each-hold-placed' } },
  'animal-identified': { subject: kit, body: { round: 'round-1', by: 'marks', compared: ['collar', 'coat'] } },
  'gate-opened': {
    subject: kit,
    body: {
      product: 'pyrantel-50',
      gates: ['weight-age'],
      vet: 'vera',
      how: 'in-person',
      reason: 'seen today',
      until: '2026-03-03',
    },
  },
  'treatment-given': {
    subject: kit,
    body: {
      schedule: 'roundworm',
      product: 'pyrantel-50',
      lot: 'pyr-1',
      volume_ul: 120,
      syringe: 'oral-1',
      syringeLot: 'pyr-1',
      route: 'oral',
    },
  },
  'treatment-not-given': { subject: kit, body: { schedule: 'roundworm', reason: 'animal-ill' } },
  'sample-drawn': {
    subject: kit,
    body: {
      run: 'run-1',
      schedule: 'felv-test',
      volume_ul: 100,
      usable: true,
      sample: 'whole-blood',
      syringeLot: 'ready-1',
    },
  },
  'test-started': {
    subject: kit,
    body: {
      run: 'run-1',
      schedule: 'felv-test',
      kitType: 'felv-kit',
      lot: null,
      kitLot: 'K1',
      conjugateLot: 'C1',
      outOfColdAt: null,
    },
  },
  'test-read': { subject: kit, body: { run: 'run-1', seen: { control: 'seen' } } },
  'test-abandoned': { subject: kit, body: { run: 'run-1', why: 'other', note: 'dropped' } },
  'test-followed-up': {
    subject: kit,
    body: {
      schedule: 'felv-test',
      says: { is: 'plan', on: '2026-03-09', what: 'second method' },
      person: 'vera',
    },
  },
  'chip-scanned': { subject: kit, body: { target: 'animal', occasion: 'intake', found: null, told: null } },
  'chip-implanted': {
    subject: kit,
    body: { code: '036012345678901', site: 'between-shoulder-blades', packScan: null },
  },
  'chip-discarded': { subject: kit, body: { code: '036012345678901', implant: null, why: 'dropped' } },
  'gloves-changed': { subject: 'round:round-1', body: { visit: null, before: 'kit-1', why: 'litter', after: [] } },
  'round-planned': {
    subject: 'round:round-1',
    body: {
      on: '2026-03-02',
      sections: ['nursery'],
      treater: 'ines',
      holder: null,
      lines: [
        { animal: 'kit-1', schedules: ['roundworm', 'felv-test'] },
        { animal: 'kit-9', schedules: ['roundworm'] },
      ],
    },
  },
  'round-begun': { subject: 'round:round-1', body: {} },
  'team-changed': { subject: 'round:round-1', body: { treater: 'ines', holder: 'sol' } },
  'section-entered': { subject: 'round:round-1', body: { section: 'nursery', worn: [] } },
  'section-left': { subject: 'round:round-1', body: { section: 'nursery', cleaned: [] } },
  'handed-back': { subject: 'round:round-1', body: { done: 1, notDone: 0, abnormal: 0 } },
  'hand-back-accepted': { subject: 'round:round-1', body: {} },
  'lot-received': {
    subject: 'lot:pyr-2',
    body: { of: { is: 'product', product: 'pyrantel-50' }, lotText: '00418', expires: null, pieces: 10 },
  },
  'syringes-prepared': {
    subject: 'lot:ready-1',
    body: {
      lotText: 'R1',
      count: 6,
      with: 'heparin',
      withLot: 'H1',
      syringeLot: 'pyr-1',
      keepsUntil: at('2026-03-02', '10:00'),
    },
  },
  'lot-counted': { subject: 'lot:pyr-1', body: { pieces: 30 } },
  'lot-withdrawn': { subject: 'lot:pyr-1', body: { why: 'recalled' } },
  'kits-out-of-cold': { subject: 'lot:pyr-1', body: { count: 1, ...onRound } },
  'flag-taken': { subject: 'flag:one', body: { flag: 'one' } },
  'flag-answered': { subject: 'flag:one', body: { flag: 'one', answer: 'done', note: 'seen' } },
  'order-written': {
    subject: kit,
    body: {
      order: {
        name: 'Wash the eyes',
        treat: { is: 'words', words: 'Wash the eyes' },
        starts: '2026-03-02',
        timing: { is: 'days', every: 1 },
        ends: { is: 'after-days', days: 3 },
        vet: 'vera',
      },
    },
  },
  'order-countersigned': { subject: kit, body: { order: 'each-order-written', says: 'mine' } },
  'order-ended': { subject: kit, body: { order: 'each-order-written', on: '2026-03-04', why: 'well again' } },
  'variant-switched': {
    subject: 'shelter:self',
    body: { variant: 'high-risk', section: null, why: 'outbreak', vet: 'vera' },
  },
  'record-withdrawn': { subject: kit, body: { reason: 'entered in error' } },
  'file-imported': {
    subject: `file:${'0'.repeat(64)}`,
    body: { name: 'list.csv', digest: '0'.repeat(64), accepted: 1, doubtful: 0, refused: 0, columns: {} },
  },
  'records-sent-again': { subject: 'shelter:self', body: { after: 2, hash: '0'.repeat(64), had: 9, records: 7 } },
};

export const everyKind = Object.keys(each) as readonly Kind[];

/** A draft of any kind; its subject is another one's when it has to be. */
export function oneOf(kind: Kind, subject: string = each[kind].subject): Draft {
  // About anything but its flag an answer is malformed, and nobody could write it down.
  const about = kind === 'flag-taken' || kind === 'flag-answered' ? each[kind].subject : subject;
  return draft(kind, about, each[kind].body as BodyInput<typeof kind>, noon);
}
