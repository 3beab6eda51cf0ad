/** Where each screen of a round is. Ids may hold any text, so each is encoded. */
export const roundPath = (round: string): string => `/round/${encodeURIComponent(round)}`;
const under = (round: string, ...parts: string[]): string =>
  [roundPath(round), ...parts.map((part) => encodeURIComponent(part))].join('/');

export const kitsPath = (round: string): string => under(round, 'kits');
export const clockPath = (round: string): string => under(round, 'clock');
export const handBackPath = (round: string): string => under(round, 'hand-back');
export const sectionPath = (round: string, section: string): string => under(round, 'section', section);
export const leavePath = (round: string, section: string): string => under(round, 'section', section, 'leave');
export const animalPath = (round: string, animal: string): string => under(round, 'animal', animal);
export const weighPath = (round: string, animal: string): string => under(round, 'animal', animal, 'weigh');
export const recordedPath = (round: string, animal: string): string => under(round, 'animal', animal, 'recorded');
export const readPath = (round: string, animal: string, run: string): string =>
  under(round, 'animal', animal, 'read', run);
