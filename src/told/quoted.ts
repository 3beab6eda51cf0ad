/** What somebody wrote, set apart from our own words; nothing when nobody wrote anything. */
export const quoted = (words: string): string => (words.trim() === '' ? '' : ` “${words.trim()}”`);
