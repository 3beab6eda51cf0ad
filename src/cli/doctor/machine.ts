import { existsSync, readFileSync, statfsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { said } from '../../core/said.js';
import { projectFolder } from '../project-folder.js';
import { attention, type Finding, well, wrong } from './finding.js';

/** Bytes of free disk under which a shelter's day may no longer fit, and under which nothing does. Ours. */
const tight = 1024 ** 3;
const full = 64 * 1024 ** 2;

const day_ms = 24 * 60 * 60_000;

/** Only an older one than the program asks for is wrong: what is newer has not been tried, and may do. */
export function lookAtNode(running = process.versions.node): Finding {
  const { engines } = JSON.parse(readFileSync(join(projectFolder, 'package.json'), 'utf8')) as {
    engines: { node: string };
  };
  const least = engines.node.replace(/[^\d.]/g, '');
  return isOlder(running, least)
    ? wrong(said('cli.doctor.node-old', { running, least }))
    : well(said('cli.doctor.node', { running }));
}

function isOlder(version: string, least: string): boolean {
  const [have, need] = [version, least].map((one) => one.split('.').map(Number));
  for (const [index, part] of (need ?? []).entries()) {
    const own = have?.[index] ?? 0;
    if (own !== part) return own < part;
  }
  return false;
}

/** The app that phones and the desk load. */
export const lookAtApp = (folder = projectFolder): Finding =>
  existsSync(join(folder, 'dist', 'web', 'index.html'))
    ? well(said('cli.doctor.app'))
    : wrong(said('cli.doctor.app-missing'));

/** Room on the disk of a folder: for the records, their journal and the pictures. */
export function lookAtDisk(folder: string, free = freeBytes(folder)): Finding {
  const megabytes = Math.floor(free / 1024 ** 2);
  if (free < full) return wrong(said('cli.doctor.disk-full', { folder, megabytes }));
  if (free < tight) return attention(said('cli.doctor.disk-tight', { folder, megabytes }));
  return well(said('cli.doctor.disk', { folder, gigabytes: Math.floor(free / 1024 ** 3) }));
}

const freeBytes = (folder: string): number => {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
};

/** Records name people: the folder is for the account that runs the server. Rights are not kept in modes everywhere. */
export function lookAtRights(folder: string): Finding {
  const mode = statSync(folder).mode & 0o777;
  if (process.platform === 'win32' || (mode & 0o077) === 0) return well(said('cli.doctor.rights', { folder }));
  return attention(said('cli.doctor.rights-wide', { folder, mode: mode.toString(8).padStart(3, '0') }));
}

/** How long ago something was, in whole days. */
export const daysSince = (at: string, now: string): number => Math.floor((Date.parse(now) - Date.parse(at)) / day_ms);
