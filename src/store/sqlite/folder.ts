import { accessSync, constants, mkdirSync, readFileSync, realpathSync, statfsSync, statSync } from 'node:fs';
import { dirname, resolve, sep } from 'node:path';
import { no, type Outcome, ok } from '../../core/said.js';

/**
 * File systems that reach another computer, by the names of Linux's mount table. SQLite's locks and its shared memory
 * do not hold across computers (sqlite.org/wal.html, "All processes using a database must be on the same host").
 */
export const networkTypes =
  /^(nfs|nfs4|cifs|smb3?|smbfs|afs|ceph|9p|glusterfs|lustre|ncpfs|fuse\.(sshfs|glusterfs|s3fs|rclone|davfs|gvfsd-fuse))$/;

/** The same by statfs number, where there is no mount table to read (linux/magic.h). */
const networkMagic = new Set([0x6969, 0x517b, 0xff534d42, 0xfe534d42, 0x01021997, 0x5346414f, 0x00c36400, 0x0bd00bd0]);

/** Looks at a folder that exists; answers the kind of network file system it is on, or null. */
export type NetworkOf = (folder: string) => string | null;

export function networkOf(folder: string): string | null {
  const real = realpathSync(folder);
  if (real.startsWith('\\\\')) return 'network share';
  const mounted = mountedAs(real, mountTable());
  if (mounted !== null) return networkTypes.test(mounted) ? mounted : null;
  return networkMagic.has(statfsSync(real).type) ? 'network share' : null;
}

/** Linux's own table of mounts; empty elsewhere. */
function mountTable(): string {
  try {
    return readFileSync('/proc/self/mounts', 'utf8');
  } catch {
    return '';
  }
}

/** Type of the mount that a path is on: the longest mount point that fits counts, of equal ones the last. */
export function mountedAs(path: string, table: string): string | null {
  let best: { point: string; type: string } | null = null;
  for (const line of table.split('\n')) {
    const [, rawPoint, type] = line.split(' ');
    if (rawPoint === undefined || type === undefined) continue;
    const point = rawPoint.replace(/\\(\d{3})/g, (_, digits: string) =>
      String.fromCharCode(Number.parseInt(digits, 8)),
    );
    const fits = point === '/' || path === point || path.startsWith(`${point}${sep}`);
    if (fits && (best === null || point.length >= best.point.length)) best = { point, type };
  }
  return best?.type ?? null;
}

/** Make sure that a folder is there, can be written to, and is on this computer. Makes it when it is missing. */
export function prepareFolder(folder: string, network: NetworkOf = networkOf): Outcome<string> {
  const path = resolve(folder);
  try {
    mkdirSync(path, { recursive: true });
  } catch (error) {
    return no('server.store.folder-missing', { folder: path, detail: textOf(error) });
  }
  try {
    if (!statSync(path).isDirectory())
      return no('server.store.folder-missing', { folder: path, detail: dirname(path) });
    accessSync(path, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    return no('server.store.folder-not-writable', { file: path, detail: textOf(error) });
  }
  const share = network(path);
  if (share !== null) return no('server.store.network-share', { folder: path, type: share });
  return ok(path);
}

const textOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
