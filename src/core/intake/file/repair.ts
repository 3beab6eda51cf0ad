import { readUtf8, writeWindows1252 } from './code-page.js';

/** Letters of HTML's Latin-1 names whose entity is the plain letter and the name of its accent. */
const accents: Readonly<Record<string, string>> = {
  grave: '\u0300',
  acute: '\u0301',
  circ: '\u0302',
  tilde: '\u0303',
  uml: '\u0308',
  ring: '\u030a',
  cedil: '\u0327',
};
const named: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  nbsp: ' ',
  szlig: 'ß',
  oslash: 'ø',
  Oslash: 'Ø',
  aelig: 'æ',
  AElig: 'Æ',
  eth: 'ð',
  ETH: 'Ð',
  thorn: 'þ',
  THORN: 'Þ',
};

/**
 * The likely original of a text whose letters were damaged on the way: UTF-8 read as Windows-1252 (`PadmÃ©`), once or
 * twice over, and HTML entities left in (`Se&#241;or`). Returns null when nothing looks damaged. Only an offer: a
 * person decides.
 */
export function repairText(text: string): string | null {
  let current = text;
  for (let turn = 0; turn < 2; turn++) current = undoCodePage(undoEntities(current));
  return current === text ? null : current;
}

/** Letters that are all in Windows-1252 and whose bytes happen to be valid UTF-8 are not there by chance. */
function undoCodePage(text: string): string {
  if (!/[\u0080-\uffff]/.test(text)) return text;
  const bytes = writeWindows1252(text);
  return (bytes === null ? null : readUtf8(bytes)) ?? text;
}

function undoEntities(text: string): string {
  return text.replace(/&(#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z]{2,8});/g, (whole, code: string) => {
    if (code.startsWith('#')) {
      const hex = /^#[xX]/.test(code);
      const point = Number.parseInt(code.slice(hex ? 2 : 1), hex ? 16 : 10);
      const isLetter = point >= 0x20 && point <= 0x10_ffff && !(point >= 0xd800 && point <= 0xdfff);
      return isLetter ? String.fromCodePoint(point) : whole;
    }
    const plain = Object.hasOwn(named, code) ? named[code] : undefined;
    const accent = accents[code.slice(1)];
    return plain ?? (accent === undefined ? whole : `${code.slice(0, 1)}${accent}`.normalize('NFC'));
  });
}
