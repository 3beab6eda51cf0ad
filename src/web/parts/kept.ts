/** Text of a signed document with each figure kept on one line with its unit. */
export const kept = (text: string): string => text.replace(/(\d) (mL|mg|mcg|g|kg|lb|units?)\b/g, '$1\u00a0$2');
