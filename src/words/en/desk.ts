import { deskStart } from './desk-start.js';

export const desk = { ...deskStart } as const satisfies Record<string, string>;
