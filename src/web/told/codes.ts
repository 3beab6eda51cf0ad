import type { World } from '../../log/views/world.js';
import { say } from '../../words/say.js';

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

export const holdCodes = ['veterinarian', 'ill', 'surgery', 'leaving', 'other'] as const;

const holds = [...holdCodes, 'too-young'] as const;

/** What the starter protocol asks for besides; `-` stands in the keys as in the codes. */
const asked = [
  'coccidia',
  'ear-mites',
  'felv-at-risk',
  'fiv-at-risk',
  'fiv-exposed',
  'leaves-soon',
  'tapeworm',
] as const;

/** The code in words; one without words of its own stands for itself. */
export function observationWords(code: string): string {
  const known = [...usualObservations, ...asked].find((one) => one === code);
  return known === undefined ? code : say(`desk.observation.${known}`);
}
export function holdWords(code: string): string {
  const known = holds.find((one) => one === code);
  return known === undefined ? code : say(`desk.hold.code.${known}`);
}

/** Usual observations first, then those that only the signed protocol asks for. */
export function observationCodes(world: World): string[] {
  const asked = (world.shelter.protocol?.schedules ?? []).flatMap((schedule) => [
    ...schedule.holds.flatMap((hold) => (hold.when.is === 'observation' ? [hold.when.code] : [])),
    ...schedule.series.flatMap((series) =>
      series.targets.flatMap((target) => ('code' in target.on ? [target.on.code] : [])),
    ),
  ]);
  return [...new Set([...usualObservations, ...asked])];
}
