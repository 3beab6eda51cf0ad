import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isPlainJpeg, plainJpeg } from './plain-jpeg.js';

const segment = (code: number, ...body: number[]): number[] => [0xff, code, 0, body.length + 2, ...body];
const table = segment(0xdb, 1, 2);
const frame = segment(0xc0, 3);
/** A scan with a stuffed FF, a restart and a second scan behind it. */
const scan = [...segment(0xda, 0), 9, 0xff, 0x00, 8, 0xff, 0xd0, 7];
const picture = [0xff, 0xd8, ...table, ...frame, ...scan, ...segment(0xc4, 5), ...scan, 0xff, 0xd9];

describe('a plain JPEG', () => {
  it('keeps the picture and drops what is told about it, wherever it stands', () => {
    const told = [0xe0, 0xe1, 0xe2, 0xed, 0xee, 0xef, 0xfe].flatMap((code) => segment(code, 65, 66));
    const [first, ...rest] = [[0xff, 0xd8], table, frame, scan, [...segment(0xc4, 5), ...scan]];
    const noisy = [...(first ?? []), ...rest.flatMap((part) => [...told, ...part]), ...told, 0xff, 0xd9, 1, 2, 3];
    expect([...(plainJpeg(Uint8Array.from(noisy)) ?? [])]).toEqual(picture);
    expect(isPlainJpeg(Uint8Array.from(noisy))).toBe(false);
  });

  it('comes out as it went in', () => {
    expect([...(plainJpeg(Uint8Array.from(picture)) ?? [])]).toEqual(picture);
    expect(isPlainJpeg(Uint8Array.from(picture))).toBe(true);
  });

  it('is not made of what is no whole JPEG, whatever its bytes', () => {
    for (let end = 0; end < picture.length; end += 1)
      expect(plainJpeg(Uint8Array.from(picture.slice(0, end)))).toBeNull();
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), fc.nat(picture.length), (noise, at) => {
        const bytes = Uint8Array.from([...picture.slice(0, at), ...noise, ...picture.slice(at)]);
        const plain = plainJpeg(bytes);
        expect(plain === null || isPlainJpeg(plain)).toBe(true);
      }),
    );
  });
});
