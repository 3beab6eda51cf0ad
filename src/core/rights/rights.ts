import { type Standing, standings } from './standing.js';

/** `anyone`: a stranger too; `enrolled`: whoever holds a device of the shelter, before they have signed in. */
export type MayAsk = 'anyone' | 'enrolled' | readonly Standing[];

const everybody = standings;
/** A foster home sees its own animals, so it is given no list of all. */
const staff = [
  'volunteer',
  'caregiver',
  'supervisor',
  'medical',
  'veterinarian',
  'administrator',
] as const satisfies readonly Standing[];
const withAnimals = [
  'volunteer',
  'caregiver',
  'supervisor',
  'medical',
  'veterinarian',
  'foster',
] as const satisfies readonly Standing[];
const treating = ['volunteer', 'supervisor', 'medical', 'veterinarian'] as const satisfies readonly Standing[];
const desk = ['supervisor', 'medical', 'veterinarian'] as const satisfies readonly Standing[];
const medical = ['medical', 'veterinarian'] as const satisfies readonly Standing[];
const veterinarian = ['veterinarian'] as const satisfies readonly Standing[];
const administrator = ['administrator'] as const satisfies readonly Standing[];
const office = ['supervisor', 'medical', 'veterinarian', 'administrator'] as const satisfies readonly Standing[];

/**
 * Who may do what, once, as data: here who may append which kind of record, below who may ask the server for what; in two
 * parts, because a phone needs the first one only.
 * Sections, people and stock belong to the desk, documents to the medical team, what happens to an animal to those who
 * treat it; what drives doses for everybody (a signature, a variant, an order) takes a veterinarian with a licence.
 * A foster home writes about its own animals only. A kind or a route without a line here does not compile.
 */
export const recordRights = {
  'shelter-described': desk,
  'section-described': desk,
  'person-described': desk,
  'protocol-filed': medical,
  'formulary-filed': medical,
  'document-signed': veterinarian,
  'document-retired': medical,
  'animal-taken-in': desk,
  'animal-described': treating,
  'animal-moved': treating,
  'sign-set': treating,
  'animal-left': desk,
  'animal-weighed': withAnimals,
  'observation-noted': withAnimals,
  'hold-placed': desk,
  'hold-lifted': desk,
  'animal-identified': treating,
  'gate-opened': treating,
  'treatment-given': treating,
  'treatment-not-given': treating,
  'sample-drawn': treating,
  'test-started': treating,
  'test-read': treating,
  'test-abandoned': treating,
  'test-followed-up': desk,
  'chip-scanned': withAnimals,
  'chip-implanted': treating,
  'chip-discarded': treating,
  'round-planned': treating,
  'round-begun': treating,
  'team-changed': treating,
  'section-entered': treating,
  'section-left': treating,
  'gloves-changed': treating,
  'handed-back': treating,
  'hand-back-accepted': desk,
  'lot-received': desk,
  'syringes-prepared': desk,
  'lot-counted': treating,
  'lot-withdrawn': desk,
  'kits-out-of-cold': treating,
  'flag-taken': desk,
  'flag-answered': desk,
  'order-written': veterinarian,
  'order-countersigned': veterinarian,
  'order-ended': medical,
  'variant-switched': veterinarian,
  'record-withdrawn': treating,
  'file-imported': desk,
  'records-sent-again': withAnimals,
} as const satisfies Readonly<Record<string, readonly Standing[]>>;

/** Who may ask the server for what, by the name of the route. */
export const routeRights = {
  health: 'anyone',
  shelter: 'anyone',
  setUp: 'anyone',
  setUpDemo: 'anyone',
  people: 'enrolled',
  peopleInFull: desk,
  changePeople: desk,
  erasePeople: desk,
  signIn: 'anyone',
  signInDemo: 'anyone',
  signedIn: everybody,
  signInByCode: 'anyone',
  firstAdministrator: 'anyone',
  confirm: everybody,
  newSecret: everybody,
  signOut: 'anyone',
  giveCode: office,
  endSignIns: administrator,
  giveDuty: administrator,
  setHome: desk,
  devices: office,
  deviceCode: office,
  enrol: 'anyone',
  nameDevice: office,
  revokeDevice: office,
  apart: office,
  judgeApart: office,
  append: withAnimals,
  records: staff,
  animalRecords: everybody,
  chips: staff,
  lots: staff,
  events: everybody,
  due: staff,
  animals: staff,
  flags: staff,
  takePhoto: staff,
  keepPicture: staff,
  picture: staff,
  verify: office,
  signedHead: staff,
  backup: desk,
} as const satisfies Readonly<Record<string, MayAsk>>;

/** Who may write down what somebody else tells by telephone, beside those who may record that kind themselves. */
export const mayHear = { 'order-written': desk } as const satisfies Readonly<Record<string, readonly Standing[]>>;

/** Whose report by telephone somebody who may record that kind themselves may write down: a foster home's, above all. */
export const mayTell = { 'treatment-given': withAnimals } as const satisfies Readonly<
  Record<string, readonly Standing[]>
>;
