import { type Said, said } from '../said.js';

/** Things seen on an animal that have words of their own; a protocol may ask for others by their code. */
export const usualObservations = [
  'ill',
  'fever',
  'sneezing',
  'not-eating',
  'vomiting',
  'diarrhoea',
  'fleas',
  'pregnant',
  'nursing',
  'felv-exposed',
  'bite',
] as const;

/** What is noted of an animal that makes it one to look at today. Our choice, no source. */
export const illnessCodes = ['ill', 'fever', 'sneezing', 'not-eating', 'vomiting', 'diarrhoea'] as const;

export type Illness = (typeof illnessCodes)[number];

export const isIllness = (code: string): code is Illness => (illnessCodes as readonly string[]).includes(code);

/** What the starter protocol asks for besides. */
const asked = [
  'cold',
  'flea-bath',
  'flea-comb',
  'bite-observation',
  'coccidia',
  'ear-mites',
  'felv-at-risk',
  'fiv-at-risk',
  'fiv-exposed',
  'leaves-soon',
  'panleukopenia-exposed',
  'ringworm-suspected',
  'tapeworm',
] as const;

/** What products have conditions about, besides. */
const ofProducts = [
  'thin',
  'weak',
  'dehydrated',
  'convalescent',
  'felv-infected',
  'fiv-infected',
  'infection-not-controlled',
  'wet-coat',
  'surgery-near',
] as const;

/** Why a person holds treatments, as the page of an animal offers it. */
export const holdCodes = ['veterinarian', 'ill', 'surgery', 'leaving', 'other'] as const;

const holds = [...holdCodes, 'too-young'] as const;

/** What was seen, in words; a code without words of its own stands for itself. */
export function observationNamed(code: string): Said | string {
  const known = [...usualObservations, ...asked, ...ofProducts].find((one) => one === code);
  return known === undefined ? code : said(`desk.observation.${known}`);
}

/** Why a person holds treatments: their own words, else the reason that they chose. */
export function holdNamed({ code, note }: { readonly code: string; readonly note: string }): Said | string {
  // It stands inside sentences that have an end of their own.
  const own = note.trim().replace(/\.$/, '');
  if (own !== '') return own;
  const known = holds.find((one) => one === code);
  return known === undefined ? code : said(`desk.hold.code.${known}`);
}
