import bwip from 'bwip-js/node';

/** Modules of free space around a code (ISO/IEC 18004: four). */
const quiet = 4;

/** The dark modules of a QR code (ISO/IEC 18004), row by row, with the free space around it. */
export function qrModules(text: string): readonly (readonly boolean[])[] {
  const [code] = bwip.raw({ bcid: 'qrcode', text });
  if (code === undefined || !('pixs' in code)) throw new Error('no code was made');
  const size = code.pixx + 2 * quiet;
  return Array.from({ length: size }, (_row, y) =>
    Array.from({ length: size }, (_module, x) => {
      const [column, row] = [x - quiet, y - quiet];
      const inside = column >= 0 && row >= 0 && column < code.pixx && row < code.pixx;
      return inside && code.pixs[row * code.pixx + column] === 1;
    }),
  );
}

/** The code as lines for a terminal, two rows a line. `coloured`: black on white whatever the terminal's own colours are. */
export function qrLines(text: string, coloured: boolean): readonly string[] {
  const modules = qrModules(text);
  const lines: string[] = [];
  for (let y = 0; y < modules.length; y += 2) {
    const row = modules[y] ?? [];
    const next = modules[y + 1] ?? [];
    const line = row.map((upper, x) => halves[Number(upper)]?.[Number(next[x] ?? false)] ?? ' ').join('');
    lines.push(coloured ? `\u001b[30;107m${line}\u001b[0m` : line);
  }
  return lines;
}

/** By upper module, then by lower one. */
const halves = [
  [' ', '▄'],
  ['▀', '█'],
];

/** The code as a picture for a page. */
export const qrPicture = (text: string): string =>
  bwip.toSVG({ bcid: 'qrcode', text, paddingwidth: quiet, paddingheight: quiet });
