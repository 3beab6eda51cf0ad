import { english } from './english.js';
import type { Language } from './language.js';

/** A further language is one more folder beside `en/` and one more line here. */
export const languages: Readonly<Record<string, Language>> = { en: english };
