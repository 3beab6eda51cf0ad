import { expect, test } from 'vitest';
import { fullRoomFaults, roomCircleFaults } from './rooms.js';
import { expectClean, planted, projectTree } from './tree.js';

test('no room holds more than 30 files without a reason', () => {
  expectClean(fullRoomFaults(projectTree()), 600);
});

test('no rooms beside each other need each other', () => {
  expectClean(roomCircleFaults(projectTree()), 600);
});

const many = (folder: string, count: number): Record<string, string> =>
  Object.fromEntries(Array.from({ length: count }, (_, i) => [`${folder}/file-${i}.ts`, '']));
const listed = (reasons: object): Record<string, string> => ({
  'test/architecture/rooms.json': JSON.stringify(reasons),
});

test('refuses a room of 31 files, lets one of 30 through, and does not count tests or rooms inside', () => {
  const fits = { ...many('src/core/a', 30), 'src/core/a/file-1.test.ts': '', 'src/core/a/inside/b.ts': '' };
  expect(fullRoomFaults(planted(fits)).faults).toEqual([]);
  const full = planted({ ...fits, 'src/core/a/one-more.tsx': '' });
  expect(fullRoomFaults(full)).toEqual({
    read: 32,
    faults: ['src/core/a holds 31 files, over 30, without a reason'],
  });
});

test('takes a reason for a full room, and refuses one that says nothing or is not needed any more', () => {
  const full = many('src/core/a', 31);
  const why = 'one file for each chapter of the job';
  expect(fullRoomFaults(planted({ ...full, ...listed({ full: { 'src/core/a': why } }) })).faults).toEqual([]);
  expect(fullRoomFaults(planted({ ...full, ...listed({ full: { 'src/core/a': 'big' } }) })).faults).toHaveLength(1);
  expect(fullRoomFaults(planted(listed({ full: { 'src/core/a': why } }))).faults).toEqual([
    'test/architecture/rooms.json:1 src/core/a has no more than 30 files',
  ]);
});

test('refuses an arrow back up between rooms beside each other, of types and over a third room too', () => {
  const two = planted({
    'src/web/phone/dose/give.tsx': `import { row } from '../../desk/due/row.js';`,
    'src/web/desk/due/row.ts': `import type { Hand } from '../../phone/dose/deep/hand.js';`,
  });
  expect(roomCircleFaults(two).faults).toEqual(['rooms need each other in src/web: desk -> phone, phone -> desk']);
  const three = planted({
    'src/core/a/x.ts': `export { y } from '../b/y.js';`,
    'src/core/b/y.ts': `const z = import('../c/z.js');`,
    'src/core/c/z.ts': `import { x } from '../a/x.js';`,
    'src/core/d/w.ts': `import { x } from '../a/x.js';`,
  });
  expect(roomCircleFaults(three).faults).toEqual(['rooms need each other in src/core: a -> b, b -> c, c -> a']);
});

test('lets a folder put its rooms together and share files with them, and takes a reason', () => {
  const house = {
    'src/web/phone/all.tsx': `import { give } from './dose/give.js';`,
    'src/web/phone/dose/give.tsx': `import { here } from '../here.js'; import { told } from '../../told/names.js';`,
    'src/web/phone/here.ts': '',
    'src/web/told/names.ts': '',
  };
  expect(roomCircleFaults(planted(house)).faults).toEqual([]);
  const circle = {
    'src/log/a/x.ts': `import { y } from '../b/y.js';`,
    'src/log/b/y.ts': `import { x } from '../a/x.js';`,
  };
  const why = 'each asks the other, and both are to be divided';
  expect(
    roomCircleFaults(planted({ ...circle, ...listed({ circles: { 'src/log: a -> b, b -> a': why } }) })).faults,
  ).toEqual([]);
  expect(
    roomCircleFaults(planted({ ...house, ...listed({ circles: { 'src/log: a -> b, b -> a': why } }) })).faults,
  ).toEqual(['test/architecture/rooms.json:1 src/log: a -> b, b -> a is no such circle']);
});
