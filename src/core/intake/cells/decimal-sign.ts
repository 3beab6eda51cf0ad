export type DecimalSign = '.' | ',';

/** Which decimal sign a figure can only have: `0,65` and `1.234,5` a comma, `12.5` a point, `1,234` either. */
function shownBy(figures: string): DecimalSign | null {
  const last = /([.,])(\d*)$/.exec(figures);
  if (last === null) return null;
  const sign = last[1] as DecimalSign;
  const other = sign === '.' ? ',' : '.';
  if (figures.includes(other)) return sign;
  if (figures.split(sign).length > 2) return other;
  return (last[2] ?? '').length !== 3 || /^0?[.,]/.test(figures) ? sign : null;
}

/** The decimal sign that the cells of one file prove; `null` when none does, `'mixed'` when cells prove both. */
export function provenSign(cells: Iterable<string>): DecimalSign | 'mixed' | null {
  let proven: DecimalSign | null = null;
  for (const cell of cells) {
    const shows = shownBy(/[\d.,]*\d/.exec(cell)?.[0] ?? '');
    if (shows === null) continue;
    if (proven !== null && proven !== shows) return 'mixed';
    proven = shows;
  }
  return proven;
}

/** True when the cell has a figure that could be read with either sign. */
export const hasTwoReadings = (cell: string): boolean => {
  const figures = /[\d.,]*\d/.exec(cell)?.[0] ?? '';
  return /[.,]/.test(figures) && shownBy(figures) === null;
};

/**
 * The cell written with a decimal point, once the sign of the file is known. Three decimals get a fourth zero, because
 * `1.234` alone would be asked about again.
 */
export function withPoint(cell: string, sign: DecimalSign): string {
  return cell.replace(/[\d.,]*\d/, (figures) => {
    const plain = sign === ',' ? figures.replaceAll('.', '').replace(',', '.') : figures.replaceAll(',', '');
    return /\.\d{3}$/.test(plain) ? `${plain}0` : plain;
  });
}
