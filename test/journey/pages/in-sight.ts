import { expect } from 'vitest';
import type { Device } from './device.js';

/** A small old phone, a usual one, and a tablet held across. */
const sizes = [
  { width: 320, height: 568 },
  { width: 390, height: 844 },
  { width: 1024, height: 768 },
] as const;

/**
 * At each size, from the head of the page: the figures of the step, what the hand has to mind, the reason why the button
 * cannot be pressed and the button itself lie inside the visible page with nothing over them, and the figures say what
 * they have to. The page is left at the size it had.
 */
export async function inSight(device: Device, step: string, figures: readonly RegExp[]): Promise<void> {
  const { page } = device;
  const before = page.viewportSize();
  for (const size of sizes) {
    await page.setViewportSize(size);
    await page.evaluate(() => window.scrollTo(0, 0));
    const at = `${step} at ${size.width}x${size.height}`;
    // Both at once: a step that has only just been left may lie in sight as well.
    const wrong = async (): Promise<string[]> => {
      const said = (await page.evaluate(saidInBar)).replace(/\s+/g, ' ');
      const unsaid = figures.filter((figure) => !figure.test(said)).map((figure) => `${figure} is not in: ${said}`);
      return [...(await page.evaluate(outOfSight)), ...unsaid];
    };
    await expect.poll(wrong, { message: at }).toEqual([]);
    if (process.env.ROUNDHAND_LOOK !== undefined) {
      const name = `${step.replace(/[^a-z0-9]+/gi, '-')}-${size.width}`;
      await page.screenshot({ path: `${process.env.ROUNDHAND_LOOK}/${name}.png` });
    }
  }
  if (before !== null) await page.setViewportSize(before);
}

/** In the page: what the bar says, part after part. */
const saidInBar = (): string =>
  [...([...document.querySelectorAll('.round-acts')].at(-1)?.querySelectorAll('.in-sight > *, .why, li') ?? [])]
    .map((part) => part.textContent)
    .join(' ');

/** In the page: what of the bar does not lie inside the visible page, or is covered; and what of a receipt is cut off. */
const outOfSight = (): string[] => {
  const bar = [...document.querySelectorAll('.round-acts')].at(-1);
  if (bar === undefined) return ['there is no bar'];
  const parts = bar.querySelectorAll(
    '.in-sight, .in-sight > *, .why, .for-the-hand, .for-the-hand > li, .btn.main, .btn.big',
  );
  const faults: string[] = [];
  for (const part of parts) {
    const box = part.getBoundingClientRect();
    const name = (part.textContent ?? '').slice(0, 60);
    if (box.top < 0 || box.left < 0 || box.bottom > window.innerHeight || box.right > window.innerWidth) {
      faults.push(`${name}: ${Math.round(box.top)} to ${Math.round(box.bottom)} of ${window.innerHeight}`);
    }
    const on = document.elementFromPoint((box.left + box.right) / 2, (box.top + box.bottom) / 2);
    if (on === null || !(part.contains(on) || on.contains(part))) faults.push(`${name}: covered`);
  }
  for (const receipt of document.querySelectorAll('.just-recorded .line')) {
    if (receipt.scrollHeight > receipt.clientHeight + 1) faults.push(`cut off: ${receipt.textContent}`);
  }
  return faults;
};
