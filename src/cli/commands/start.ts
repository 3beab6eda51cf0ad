import { join, resolve } from 'node:path';
import { dayOfInstant } from '../../core/calendar.js';
import { no, type Outcome, ok } from '../../core/said.js';
import { makeDemo } from '../../demo/make-demo.js';
import { fileFormulary, fileProtocol } from '../../log/commands/shelter.js';
import { StoreTrouble } from '../../log/store.js';
import type { CopiesAsked } from '../../server/copies/keep-copies.js';
import type { LanAsked } from '../../server/lan/lan.js';
import { keepDemoPhotos } from '../../server/photo/demo-photos.js';
import { type StartOptions, serve } from '../../server/start.js';
import { blobsFolder, folderBlobs } from '../../store/blobs/folder.js';
import { openPrivateSide } from '../../store/private/sqlite.js';
import { openStore } from '../../store/sqlite/open.js';
import { say, setZone } from '../../words/say.js';
import type { Given } from '../command.js';
import { type Command, dataOption } from '../command.js';
import { dataFolder, peopleIn, worldInCare } from '../data-folder.js';
import { readFormulary, readProtocol } from '../documents.js';
import { done, type Exit, failed, isExit, misused } from '../exit.js';
import { tell } from '../output.js';
import { readPassphrase } from '../passphrase.js';
import { portGiven } from '../port.js';
import { projectFolder } from '../project-folder.js';
import { roundInWords } from '../round-in-words.js';
import { roundToday } from './plan.js';

const usualCopies_h = 6;

/**
 * Print today's round and serve the app. Without a data folder of one's own and without records, the invented shelter is
 * made; with one that is empty, the browser asks what to do.
 */
export const start: Command = {
  name: 'start',
  options: {
    ...dataOption,
    port: { value: 'NUMBER' },
    host: { value: 'ADDRESS' },
    lan: {},
    name: { value: 'NAME' },
    cert: { value: 'FILE' },
    key: { value: 'FILE' },
    copies: { value: 'DIR' },
    'copies-every': { value: 'HOURS' },
    'passphrase-file': { value: 'FILE' },
    log: { value: 'LEVEL', oneOf: ['silent', 'error', 'warn', 'info', 'debug'] },
  },
  example: 'start --data ~/roundhand --port 8600',
  run: async (given) => {
    const port = portGiven(given);
    if (port === null) return misused('cli.start.not-a-port', { given: given.text('port') ?? '' });
    const lan = lanAsked(given);
    if (lan === 'misused') return misused('lan.given.together');
    const copies = copiesAsked(given);
    if (isExit(copies)) return copies;
    const protocol = readProtocol();
    if (!protocol.ok) return failed(protocol.why);
    const formulary = readFormulary();
    if (!formulary.ok) return failed(formulary.why);
    const host = given.text('host');
    const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
    const documents = { protocol: protocol.value, formulary: formulary.value };
    const options: StartOptions = {
      data: dataFolder(given),
      port,
      ...(host === null ? {} : { host }),
      ...(lan === null ? {} : { lan }),
      ...(copies === null ? {} : { copies }),
      webRoot: join(projectFolder, 'dist', 'web'),
      logLevel: given.text('log') ?? 'warn',
      demo: (at) => makeDemo({ ...at, ...documents }),
      starter: (at) => [...fileProtocol(documents.protocol, at), ...fileFormulary(documents.formulary, at)],
    };
    const shown = await showToday(given, options, zone);
    if (!shown.ok) return failed(shown.why);
    await serve(options);
    return done;
  },
};

/** Https on the network, as asked for; null without it. */
function lanAsked(given: Given): LanAsked | null | 'misused' {
  const [name, certificate, key] = [given.text('name'), given.text('cert'), given.text('key')];
  const alone = (certificate === null) !== (key === null);
  if (alone || (!given.flag('lan') && (name !== null || key !== null))) return 'misused';
  if (!given.flag('lan')) return null;
  return { name, given: certificate === null || key === null ? null : { certificate, key } };
}

/** Copies in a second place, as asked for; null without them. */
function copiesAsked(given: Given): CopiesAsked | null | Exit {
  const folder = given.text('copies');
  const hours = Number(given.text('copies-every') ?? usualCopies_h);
  if (folder === null) {
    const more = given.text('copies-every') ?? given.text('passphrase-file');
    return more === null ? null : misused('copies.place-first');
  }
  if (!(hours >= 1 && hours <= 168)) return misused('copies.every-wrong', { given: given.text('copies-every') ?? '' });
  const passphrase = readPassphrase(given);
  if (!passphrase.ok) return failed(passphrase.why);
  return { folder: resolve(folder), every_ms: hours * 3_600_000, passphrase: passphrase.value };
}

/** Makes the invented shelter where it is wanted, and prints today's round or that there is no shelter yet. */
async function showToday(given: Given, { data, demo }: StartOptions, zone: string): Promise<Outcome<null>> {
  const opened = await openStore(data);
  if (!opened.ok) return opened;
  const store = opened.value;
  const now = new Date().toISOString();
  try {
    if ((await store.head()).seq === 0 && given.text('data') === null && demo !== undefined) {
      const photos = await keepDemoPhotos(folderBlobs(join(data, blobsFolder)));
      const made = demo({ today: dayOfInstant(now, zone), now, zone, seed: 1, photos });
      const side = openPrivateSide(data);
      if (!side.ok) return side;
      await side.value.change(made.people);
      await side.value.close();
      await store.append(made.records, now);
      tell(say('cli.start.demo-made', { folder: data }));
    }
    const people = await peopleIn(data);
    if (!people.ok) return people;
    const world = await worldInCare(store);
    if (world.shelter.id === null) {
      if ((await store.head()).seq > 0) return no('server.problem.records-damaged');
      setZone(zone);
      tell(say('cli.start.empty'));
      return ok(null);
    }
    const round = roundToday(world, given, now);
    if (!isExit(round)) for (const line of roundInWords(world, round)) tell(line);
    else if (round.why !== undefined) tell(say(round.why));
    tell();
    return ok(null);
  } catch (error) {
    if (error instanceof StoreTrouble) return { ok: false, why: error.why };
    return no('cli.unexpected-trouble', { detail: error instanceof Error ? error.message : String(error) });
  } finally {
    await store.close();
  }
}
