/** Which of two texts comes first, character by character, as `sort` asks for it. */
export const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
