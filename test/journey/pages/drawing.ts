import type { Device } from './device.js';

/** The block of an animal on the drawing. */
export const blockOf = (device: Device, animal: string) => device.page.locator(`[data-hand][aria-label^="${animal},"]`);

/** Names on the drawing in one section, in their order. */
export const orderOnDrawing = async (device: Device, section: string): Promise<string[]> => {
  const labels = await device.page
    .locator(`[data-hand][aria-label$="in ${section}"]`)
    .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''));
  const place = (label: string): number => Number(/place (\d+)/.exec(label)?.[1]);
  return labels.sort((a, b) => place(a) - place(b)).map((label) => label.slice(0, label.indexOf(',')));
};

/** Waits until a plan stands and no shorter one is looked for any more. */
export async function planStands(device: Device): Promise<void> {
  // A change is seen in the next frame only.
  await device.drawn();
  await device.says(/Nobody could be done in less than/);
  await device.settles('This plan holds; a shorter one is being looked for.');
  await device.page.locator('[data-hand]').first().waitFor();
}

/** Takes an animal with the pointer above another one, at a share of its length; the button stays down. */
export async function dragOnDrawing(device: Device, animal: string, other: string, share: number): Promise<void> {
  await blockOf(device, animal).scrollIntoViewIfNeeded();
  const [from, to] = await Promise.all(
    [animal, other].map((one) => blockOf(device, one).locator('rect').first().boundingBox()),
  );
  if (from == null || to == null) throw new Error(`${animal} or ${other} is not on the drawing`);
  const { mouse } = device.page;
  await mouse.move(from.x + from.width / 2, from.y + from.height / 2);
  await mouse.down();
  await mouse.move(from.x + from.width / 2 + 8, from.y + from.height / 2, { steps: 2 });
  await mouse.move(to.x + to.width * share, to.y + to.height / 2, { steps: 6 });
}

/** The same with a finger: held for a moment, then moved. `lift` ends it. */
export async function dragByTouch(device: Device, animal: string, other: string, share: number) {
  const block = (one: string) => blockOf(device, one).locator('rect').first();
  await block(animal).scrollIntoViewIfNeeded();
  const [from, to] = await Promise.all([animal, other].map((one) => block(one).boundingBox()));
  if (from == null || to == null) throw new Error(`${animal} or ${other} is not on the drawing`);
  const start = [from.x + from.width / 2, from.y + from.height / 2] as const;
  const end = [to.x + to.width * share, to.y + to.height * share] as const;
  const fingers = await device.page.context().newCDPSession(device.page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', at?: readonly [number, number]) =>
    fingers.send('Input.dispatchTouchEvent', { type, touchPoints: at === undefined ? [] : [{ x: at[0], y: at[1] }] });
  await touch('touchStart', start);
  await device.page.locator('[data-hand].lifted').waitFor();
  for (let i = 1; i <= 6; i += 1) {
    const along = (axis: 0 | 1): number => start[axis] + ((end[axis] - start[axis]) * i) / 6;
    await touch('touchMove', [along(0), along(1)]);
  }
  return {
    lift: async (): Promise<void> => {
      await touch('touchEnd');
      await fingers.detach();
    },
  };
}

declare global {
  interface Window {
    roundhandTones?: number;
  }
}
/** In the page: counts the tones that are sounded from now on. */
export const countTones = (): void => {
  const { start } = OscillatorNode.prototype;
  window.roundhandTones = 0;
  OscillatorNode.prototype.start = function count(when?: number) {
    window.roundhandTones = (window.roundhandTones ?? 0) + 1;
    start.call(this, when);
  };
};
