import type { ProtocolDocument } from '../core/protocol/document/document.js';

/** What the rounds of the invented shelter are about. On-need treatments stay on: they are due only when seen. */
const told: readonly string[] = [
  'weighing',
  'felv-test',
  'chip',
  'core-vaccine',
  'roundworm',
  'coccidia',
  'tapeworm',
  'flea',
  'ear-mite',
];

/**
 * The starter protocol as the invented veterinarian signs it: schedules that the story does not tell are switched off,
 * so that a round stays short enough to be tried on a phone. A protocol without such schedules is left as it is.
 */
export function inUse(protocol: ProtocolDocument): ProtocolDocument {
  const known = protocol.schedules.some((schedule) => told.includes(schedule.id));
  if (!known) return protocol;
  const schedules = protocol.schedules.map((one) => ({ ...one, active: one.active && told.includes(one.id) }));
  // Of the choices only those stay whose values are still the ones in force.
  const version = `${protocol.version}-demo`;
  return { ...protocol, version, schedules, choices: protocol.choices.filter((choice) => choice.id !== 'rabies-law') };
}
