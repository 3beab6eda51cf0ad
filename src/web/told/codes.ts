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

const usual = new Set<string>(usualObservations);
const holds = new Set<string>([...holdCodes, 'too-young']);

/** What the starter protocol asks for besides; `-` stands in the keys as in the codes. */
const asked = new Set<string>([
  'coccidia',
  'ear-mites',
  'felv-at-risk',
  'fiv-at-risk',
  'fiv-exposed',
  'leaves-soon',
  'tapeworm',
]);

/** The code in words; one without words of its own stands for itself. */
export const observationWords = (code: string): string =>
  usual.has(code) || asked.has(code) ? say(`desk.observation.${code}`) : code;
export const holdWords = (code: string): string => (holds.has(code) ? say(`desk.hold.code.${code}`) : code);

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
