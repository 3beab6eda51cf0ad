import { ways } from './english-ways.js';
import type { Language, Message } from './language.js';

const messages: Record<string, Message> = {};
let told: (key: string) => void = () => {};

/** Takes in the messages that a part of the program says, when that part is loaded. */
export const learn = (more: Readonly<Record<string, Message>>): void => {
  Object.assign(messages, more);
};

/** Who is told of a key whose message has not been learned. */
export const tellMissing = (tell: (key: string) => void): void => {
  told = tell;
};

/** English as the web app has it, in place of the whole catalogue: no more of it is fetched than what can be said. */
export const english: Language = { ...ways, messages, missing: (key) => told(key) };
