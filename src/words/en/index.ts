import { chip } from './animal/chip.js';
import { dose } from './animal/dose.js';
import { due } from './animal/due.js';
import { growth } from './animal/growth.js';
import { test } from './animal/test.js';
import { timeline } from './animal/timeline.js';
import { whatIf } from './animal/what-if.js';
import { deskAnimals } from './desk/animals.js';
import { deskDocuments } from './desk/documents.js';
import { deskDue } from './desk/due.js';
import { formularyDesk } from './desk/formulary.js';
import { deskHouse } from './desk/house.js';
import { deskImport } from './desk/import.js';
import { protocolDesk } from './desk/protocol.js';
import { deskRounds } from './desk/rounds.js';
import { deskStart } from './desk/start.js';
import { deskTold } from './desk/told.js';
import { cli } from './program/cli.js';
import { copies } from './program/copies.js';
import { doctor } from './program/doctor.js';
import { head } from './program/head.js';
import { lan } from './program/lan.js';
import { parts } from './program/parts.js';
import { people } from './program/people.js';
import { server } from './program/server.js';
import { flagNames } from './record/flag-names.js';
import { flags } from './record/flags.js';
import { importing } from './record/import.js';
import { log } from './record/log.js';
import { daySheetWords } from './round/day-sheet.js';
import { drawup } from './round/drawup.js';
import { plan } from './round/plan.js';
import { ribbon } from './round/ribbon.js';
import { round } from './round/round.js';
import { roundSteps } from './round/steps.js';
import { wards } from './round/wards.js';

/** The chapters by their place in this folder, so that a test can tell where a key stands and that no two share one. */
export const chapters = {
  'animal/chip': chip,
  'animal/dose': dose,
  'animal/due': due,
  'animal/growth': growth,
  'animal/test': test,
  'animal/timeline': timeline,
  'animal/what-if': whatIf,
  'desk/animals': deskAnimals,
  'desk/documents': deskDocuments,
  'desk/due': deskDue,
  'desk/formulary': formularyDesk,
  'desk/house': deskHouse,
  'desk/import': deskImport,
  'desk/protocol': protocolDesk,
  'desk/rounds': deskRounds,
  'desk/start': deskStart,
  'desk/told': deskTold,
  'program/cli': cli,
  'program/copies': copies,
  'program/doctor': doctor,
  'program/head': head,
  'program/lan': lan,
  'program/parts': parts,
  'program/people': people,
  'program/server': server,
  'record/flags': flags,
  'record/flag-names': flagNames,
  'record/import': importing,
  'record/log': log,
  'round/day-sheet': daySheetWords,
  'round/drawup': drawup,
  'round/plan': plan,
  'round/ribbon': ribbon,
  'round/round': round,
  'round/steps': roundSteps,
  'round/wards': wards,
} as const;

type Chapter = (typeof chapters)[keyof typeof chapters];
type Both<Union> = (Union extends unknown ? (one: Union) => void : never) extends (all: infer All) => void
  ? All
  : never;

/** Every message by key, as types: what the rest of the program is held against. */
export type Messages = Both<Chapter>;
