import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Whether the text of a PDF can be read here; poppler's pdftotext is not part of every machine. */
export const canReadPdf = spawnSync('pdftotext', ['-v']).error === undefined;

/** The text of each page of a PDF. */
export function pagesOf(pdf: Uint8Array): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-paper-'));
  try {
    const file = join(folder, 'paper.pdf');
    writeFileSync(file, pdf);
    const { stdout, status } = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    if (status !== 0) throw new Error('pdftotext could not read the paper');
    return stdout.split('\f').filter((page) => page.trim() !== '');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
