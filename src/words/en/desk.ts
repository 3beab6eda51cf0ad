import { deskAnimals } from './desk-animals.js';
import { deskDocuments } from './desk-documents.js';
import { deskDue } from './desk-due.js';
import { deskHouse } from './desk-house.js';
import { deskImport } from './desk-import.js';
import { deskRounds } from './desk-rounds.js';
import { deskStart } from './desk-start.js';
import { deskTold } from './desk-told.js';

/** The desk's chapter, written in several files because it is the longest. */
export const desk = {
  ...deskStart,
  ...deskTold,
  ...deskDue,
  ...deskAnimals,
  ...deskRounds,
  ...deskHouse,
  ...deskDocuments,
  ...deskImport,
} as const satisfies Record<string, string>;
