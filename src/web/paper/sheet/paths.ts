/** The treatment sheet of a round, and the place where its lines are keyed in. */
export const sheetOf = (round: string): string => `/rounds/${encodeURIComponent(round)}/sheet`;
export const keyInPath = '/rounds/key-in';
