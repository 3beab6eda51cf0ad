import type { Key } from '../core/said.js';
import { chapters } from './en/index.js';
import { ways } from './english-ways.js';
import type { Language } from './language.js';

export const english: Language = { ...ways, messages: Object.assign({}, ...Object.values(chapters)) };

/** Whether there is a message of this key; to be asked only where all messages are. */
export const isKey = (text: string): text is Key => Object.hasOwn(english.messages, text);
