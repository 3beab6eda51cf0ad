import type { Language } from '../language.js';
import { chip } from './chip.js';
import { cli } from './cli.js';
import { desk } from './desk.js';
import { dose } from './dose.js';
import { drawup } from './drawup.js';
import { due } from './due.js';
import { flags } from './flags.js';
import { formularyDesk } from './formulary-desk.js';
import { growth } from './growth.js';
import { importing } from './import.js';
import { log } from './log.js';
import { parts } from './parts.js';
import { plan } from './plan.js';
import { protocolDesk } from './protocol-desk.js';
import { ribbon } from './ribbon.js';
import { round } from './round.js';
import { roundSteps } from './round-steps.js';
import { server } from './server.js';
import { test } from './test.js';
import { timeline } from './timeline.js';
import { wards } from './wards.js';
import { ways } from './ways.js';
import { whatIf } from './what-if.js';

/** The chapters by name, so that a test can tell in which file a key stands and that no two files share one. */
export const chapters = {
  due,
  dose,
  drawup,
  test,
  chip,
  growth,
  log,
  flags,
  desk,
  round,
  plan,
  ribbon,
  'round-steps': roundSteps,
  import: importing,
  server,
  cli,
  parts,
  wards,
  timeline,
  'what-if': whatIf,
  'protocol-desk': protocolDesk,
  'formulary-desk': formularyDesk,
} as const;

export const english: Language = { ...ways, messages: Object.assign({}, ...Object.values(chapters)) };
