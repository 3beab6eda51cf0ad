import { dirname, join } from 'node:path/posix';
import { parseSource } from './source.js';
import { type Findings, filesOf, isTest, source, type Tree } from './tree.js';

const most = 30;
const list = 'test/architecture/rooms.json';

/** Why a folder of src holds more files than are read at a sitting; why rooms beside each other need each other, by the fault's words. */
interface Reasons {
  readonly full: Readonly<Record<string, string>>;
  readonly circles: Readonly<Record<string, string>>;
}

/** Rooms with too many source files straight in them, tests not counted, without a reason; and reasons that are not needed. */
export function fullRoomFaults(tree: Tree): Findings {
  const counts = new Map<string, number>();
  const files = sources(tree);
  for (const [path] of files) counts.set(dirname(path), (counts.get(dirname(path)) ?? 0) + 1);
  const full = new Map([...counts].filter(([, count]) => count > most));
  const over = (room: string): string => `${room} holds ${full.get(room)} files, over ${most}, without a reason`;
  return {
    read: files.length,
    faults: reasoned(full.keys(), reasonsOf(tree).full, over, `has no more than ${most} files`),
  };
}

/**
 * Arrows back up: rooms beside each other in one folder, each with all that is in it, of which each needs the other, over
 * others or by types too. Files straight in the folder put the rooms together or are shared by them, and are not counted.
 */
export function roomCircleFaults(tree: Tree): Findings {
  const files = sources(tree);
  const arrows = files.flatMap(([path, text]) =>
    parseSource(path, text)
      .imports.filter((one) => one.from.startsWith('.') && one.from.endsWith('.js'))
      .flatMap((one) => arrowOf(dirname(path), dirname(join(dirname(path), one.from)))),
  );
  const houses = grouped(arrows, ({ house }) => house);
  const circles = [...houses].flatMap(([house, own]) => backArrows(own).map((told) => `${house}: ${told}`));
  const told = (circle: string): string => `rooms need each other in ${circle}`;
  return { read: files.length, faults: reasoned(circles, reasonsOf(tree).circles, told, 'is no such circle') };
}

interface Arrow {
  readonly house: string;
  readonly from: string;
  readonly to: string;
}

/** The arrow between two rooms of the lowest folder that holds both; none when one of them lies in the other. */
function arrowOf(from: string, to: string): Arrow[] {
  const [a, b] = [from.split('/'), to.split('/')];
  const at = a.findIndex((name, index) => name !== b[index]);
  const [mine, other] = [a[at], b[at]];
  // The layers have a gate of their own.
  if (at <= 1 || mine === undefined || other === undefined) return [];
  return [{ house: a.slice(0, at).join('/'), from: mine, to: other }];
}

/** The arrows of one folder that lead to a room from which there is a way back, in one sentence; or none. */
function backArrows(arrows: readonly Arrow[]): string[] {
  const next = grouped(arrows, ({ from }) => from);
  const leadsTo = (from: string, to: string, seen: Set<string>): boolean =>
    [...new Set((next.get(from) ?? []).map((arrow) => arrow.to))].some((room) => {
      if (room === to) return true;
      if (seen.has(room)) return false;
      seen.add(room);
      return leadsTo(room, to, seen);
    });
  const pairs = new Map(arrows.map((arrow) => [`${arrow.from} -> ${arrow.to}`, arrow]));
  const back = [...pairs].filter(([, { from, to }]) => leadsTo(to, from, new Set())).map(([pair]) => pair);
  return back.length === 0 ? [] : [back.sort().join(', ')];
}

function grouped(arrows: readonly Arrow[], by: (arrow: Arrow) => string): Map<string, Arrow[]> {
  const groups = new Map<string, Arrow[]>();
  for (const arrow of arrows) groups.set(by(arrow), [...(groups.get(by(arrow)) ?? []), arrow]);
  return groups;
}

function reasoned(
  rooms: Iterable<string>,
  reasons: Readonly<Record<string, string>>,
  over: (room: string) => string,
  idle: string,
): string[] {
  const found = new Set(rooms);
  return [
    ...[...found].filter((room) => (reasons[room] ?? '').trim().length < 20).map(over),
    ...Object.keys(reasons)
      .filter((room) => !found.has(room))
      .map((room) => `${list}:1 ${room} ${idle}`),
  ];
}

const sources = (tree: Tree): [path: string, text: string][] => filesOf(tree, source).filter(([path]) => !isTest(path));

const reasonsOf = (tree: Tree): Reasons =>
  ({ full: {}, circles: {}, ...JSON.parse(tree.get(list) ?? '{}') }) as Reasons;
