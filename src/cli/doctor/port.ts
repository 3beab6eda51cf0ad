import { get, type IncomingMessage } from 'node:http';
import { get as getSecurely, type RequestOptions } from 'node:https';
import { join } from 'node:path';
import { said } from '../../core/said.js';
import { keysFolder, readKeyFile } from '../../store/private/keys.js';
import { type Finding, well, wrong } from './finding.js';

/** Milliseconds to wait for an answer of this computer to itself. Ours. */
const answer_ms = 3000;

/** What came back: the text, that nobody listens there, or nothing that can be read. */
type Answer = { readonly text: string } | 'nobody' | 'unreadable';

/**
 * What answers where the server is to be, by http or, with `start --lan`, by https. `folder` is that of the records: the
 * authority of the certificate lies there.
 */
export async function lookAtPort(port: number, folder: string): Promise<Finding> {
  const asked = { host: '127.0.0.1', port, path: '/api/health', agent: false, timeout: answer_ms };
  const plain = await answerTo((tell) => get(asked, tell));
  if (plain === 'nobody') return well(said('cli.doctor.port-free', { port }));
  const health = healthIn(plain) ?? healthIn(await answerTo((tell) => getSecurely(trusting(asked, folder), tell)));
  if (health === null) return wrong(said('cli.doctor.port-other', { port }));
  if (health.told.length > 0) {
    return wrong(said('cli.doctor.server-tells', { port, faults: { list: health.told } }));
  }
  return well(said('cli.doctor.server', { port, version: health.version }));
}

/**
 * By the authority beside the records, under whatever name it is reached. With a certificate of the shelter's own nothing
 * here knows who vouches for it: then it is asked all the same, for nothing is told to it and it is on this computer.
 */
function trusting(asked: RequestOptions, folder: string): RequestOptions {
  const authority = readKeyFile(join(folder, keysFolder, 'authority.crt'));
  return authority.ok && authority.value !== null
    ? { ...asked, ca: authority.value, checkServerIdentity: () => undefined }
    : { ...asked, rejectUnauthorized: false };
}

const answerTo = (ask: (tell: (reply: IncomingMessage) => void) => ReturnType<typeof get>): Promise<Answer> =>
  new Promise((tell) => {
    const asking = ask((reply) => {
      let text = '';
      reply.setEncoding('utf8').on('data', (more: string) => {
        text += more;
        if (text.length > mostText) asking.destroy();
      });
      reply.on('close', () => tell({ text }));
    });
    asking.on('timeout', () => asking.destroy());
    asking.on('error', (error: NodeJS.ErrnoException) => tell(error.code === 'ECONNREFUSED' ? 'nobody' : 'unreadable'));
    asking.on('close', () => tell('unreadable'));
  });

/** More than any answer of ours: a stranger at the port may talk for ever. */
const mostText = 100_000;

function healthIn(answer: Answer): { readonly version: string; readonly told: readonly string[] } | null {
  if (typeof answer === 'string') return null;
  try {
    const { version, told } = JSON.parse(answer.text) as { version?: unknown; told?: unknown };
    return typeof version === 'string' && Array.isArray(told) ? { version, told: told.map(String) } : null;
  } catch {
    return null;
  }
}
