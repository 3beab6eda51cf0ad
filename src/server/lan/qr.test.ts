import { describe, expect, it } from 'vitest';
import { qrLines, qrModules } from './qr.js';

const url = 'http://192.0.2.2:8601/';
const row = (text: string): readonly boolean[] => [...text].map((sign) => sign === '#');

/** The pattern in three of the corners (ISO/IEC 18004, finder pattern). */
const corner = ['#######', '#.....#', '#.###.#', '#.###.#', '#.###.#', '#.....#', '#######'].map(row);

describe('the code for a phone', () => {
  it('has the three corners of the standard and four free modules around it', () => {
    const modules = qrModules(url);
    const side = modules.length - 8;
    // Sides of the standard's versions are 21, 25, 29 ...
    expect(side % 4).toBe(1);
    for (const [x, y] of [
      [4, 4],
      [4 + side - 7, 4],
      [4, 4 + side - 7],
    ] as const) {
      expect(modules.slice(y, y + 7).map((line) => line.slice(x, x + 7))).toEqual(corner);
    }
    const edge = [...modules.slice(0, 4), ...modules.slice(-4)].flat();
    expect(edge.includes(true)).toBe(false);
    expect(modules.every((line) => !line.slice(0, 4).includes(true) && !line.slice(-4).includes(true))).toBe(true);
  });

  it('stands in a terminal with two rows a line, module by module', () => {
    const modules = qrModules(url);
    const read = qrLines(url, false).flatMap((line) => [
      [...line].map((sign) => sign === '▀' || sign === '█'),
      [...line].map((sign) => sign === '▄' || sign === '█'),
    ]);
    expect(read.slice(0, modules.length)).toEqual(modules);
    for (const line of qrLines(url, true))
      expect(line.startsWith('\u001b[30;107m') && line.endsWith('\u001b[0m')).toBe(true);
  });
});
