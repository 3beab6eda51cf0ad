import { type RefObject, useEffect, useRef, useState } from 'react';
import { say } from '../../../words/say.js';
import { type Frame, momentAt } from './frame.js';
import {
  firstBlocks,
  type Hand,
  type Held,
  type Holding,
  keyOf,
  type Place,
  placeIn,
  type Spot,
  spotsOf,
} from './hand.js';
import type { RibbonPicture } from './ribbon-data.js';

/** A mouse that moved so far drags; a finger that moved so far before it has held scrolls. Ours. */
const mouse_px = 4;
const finger_px = 10;
/** A finger holds an animal so long to pick it up, so that the page can still be scrolled over the drawing. Ours. */
const hold_ms = 350;
/** So near to the edge of the screen the page moves along. */
const edge_px = 70;

/** What a strip says about itself in `data-strip`, for a pointer above it. */
export interface StripData {
  readonly frame: Frame;
  readonly lanes: readonly { readonly lane: number; readonly top: number; readonly depth: number }[];
}

/** Picking up, moving and putting down an animal on the drawing, by mouse, finger or keys. */
export function useHand(
  root: RefObject<HTMLElement | null>,
  picture: RibbonPicture,
  hand: Hand | undefined,
): { readonly held: Held | null; readonly told: string } {
  const [holding, setHolding] = useState<Holding | null>(null);
  const [told, setTold] = useState('');
  const spots = spotsOf(picture);
  const [current, setCurrent] = useState('');
  const focusNext = useRef<string | null>(null);
  const dragging = useRef(false);
  const latest = useRef({ picture, hand });
  latest.current = { picture, hand };

  useEffect(() => {
    const element = root.current;
    // Once an animal is picked up the finger moves it and not the page.
    const stay = (event: Event): void => {
      if (dragging.current) event.preventDefault();
    };
    element?.addEventListener('touchmove', stay, { passive: false });
    element?.addEventListener('contextmenu', stay);
    return () => {
      element?.removeEventListener('touchmove', stay);
      element?.removeEventListener('contextmenu', stay);
    };
  }, [root]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new picture has other elements, the focus goes along
  useEffect(() => {
    const key = focusNext.current;
    focusNext.current = null;
    if (key !== null) root.current?.querySelector<SVGElement>(`[data-hand="${CSS.escape(key)}"]`)?.focus();
  }, [picture]);

  if (hand === undefined) return { held: null, told: '' };

  const hold = (spot: Spot, by: Holding['by'], place: Place): Holding | null => {
    const own = latest.current.hand;
    if (own === undefined) return null;
    const next = { spot, by, place, ...own.consider(spot, place) };
    setHolding(next);
    if (by === 'keys') setTold(next.words);
    return next;
  };
  const letGo = (holdingNow: Holding | null, put: boolean): void => {
    setHolding(null);
    if (holdingNow === null) return;
    const { spot, place, ok, words } = holdingNow;
    if (put) latest.current.hand?.put(spot, place);
    // A broken rule is told by the page, beside the drawing.
    setTold(put ? (ok ? say('ribbon.hand.put', { where: words }) : '') : leftWords(latest.current.picture, spot));
  };

  const pointerDown: Held['pointerDown'] = (spot, event) => {
    if (event.button !== 0 || !event.isPrimary) return;
    const element = event.currentTarget;
    const svg = element.ownerSVGElement;
    const finger = event.pointerType === 'touch';
    const from = { x: event.pageX, y: event.pageY };
    let at = { x: event.clientX, y: event.clientY };
    let now: Holding | null = null;
    let frame = 0;
    // What follows the pointer lies above everything; the animal itself stays in its place until it is put down.
    let shown: SVGGElement | null = null;
    const look = (): void => {
      const scale = (svg?.getBoundingClientRect().width ?? 1) / (svg?.viewBox.baseVal.width || 1);
      const [dx, dy] = [at.x + window.scrollX - from.x, at.y + window.scrollY - from.y];
      shown?.setAttribute('transform', `translate(${dx / scale} ${dy / scale})`);
      const place = placeUnder(root.current, latest.current.picture, at);
      if (place === null || (now !== null && samePlace(now.place, place))) return;
      now = hold(spot, 'pointer', place);
    };
    const along = (): void => {
      const by = at.y < edge_px ? -8 : at.y > window.innerHeight - edge_px ? 8 : 0;
      if (by !== 0) {
        window.scrollBy(0, by);
        look();
      }
      frame = requestAnimationFrame(along);
    };
    const begin = (): void => {
      dragging.current = true;
      element.classList.add('lifted');
      shown = likenessOf(element);
      svg?.append(shown);
      element.setPointerCapture(event.pointerId);
      setCurrent(keyOf(spot));
      look();
      frame = requestAnimationFrame(along);
    };
    const timer = finger ? setTimeout(begin, hold_ms) : undefined;
    const move = (moved: PointerEvent): void => {
      if (moved.pointerId !== event.pointerId) return;
      at = { x: moved.clientX, y: moved.clientY };
      const far = Math.hypot(moved.pageX - from.x, moved.pageY - from.y);
      if (dragging.current) look();
      else if (!finger && far > mouse_px) begin();
      else if (finger && far > finger_px) end();
    };
    const end = (): void => {
      clearTimeout(timer);
      cancelAnimationFrame(frame);
      element.classList.remove('lifted');
      shown?.remove();
      window.removeEventListener('pointermove', move);
      window.removeEventListener('pointerup', up);
      window.removeEventListener('pointercancel', cancel);
      window.removeEventListener('keydown', key, true);
      dragging.current = false;
    };
    const finish = (put: boolean): void => {
      const was = dragging.current;
      end();
      if (was) letGo(now, put);
    };
    const up = (): void => finish(true);
    const cancel = (): void => finish(false);
    const key = (pressed: KeyboardEvent): void => {
      if (pressed.key !== 'Escape' || !dragging.current) return;
      pressed.stopPropagation();
      finish(false);
    };
    window.addEventListener('pointermove', move);
    window.addEventListener('pointerup', up);
    window.addEventListener('pointercancel', cancel);
    window.addEventListener('keydown', key, true);
  };

  const keyDown: Held['keyDown'] = (spot, event) => {
    const by = ['ArrowRight', 'ArrowDown'].includes(event.key)
      ? 1
      : ['ArrowLeft', 'ArrowUp'].includes(event.key)
        ? -1
        : 0;
    const mine = holding !== null && holding.by === 'keys' && keyOf(holding.spot) === keyOf(spot);
    if (event.key === 'Escape' && mine) letGo(holding, false);
    else if (event.key === 'Enter' || event.key === ' ') {
      if (mine) {
        focusNext.current = keyOf(spot);
        letGo(holding, true);
      } else {
        const section = picture.lanes[spot.lane]?.sections.find((one) => one.id === spot.section);
        const gap = section === undefined ? 0 : firstBlocks(section).findIndex((one) => one.animal === spot.animal);
        hold(spot, 'keys', { lane: spot.lane, section: spot.section, gap });
        setTold(say('ribbon.hand.picked', { animal: nameIn(picture, spot) }));
      }
    } else if (by !== 0 && mine) {
      hold(spot, 'keys', { ...holding.place, gap: hand.next(spot, holding.place.gap, by) });
    } else if (by !== 0) {
      const next = spots[spots.findIndex((one) => keyOf(one) === keyOf(spot)) + by];
      if (next !== undefined)
        root.current?.querySelector<SVGElement>(`[data-hand="${CSS.escape(keyOf(next))}"]`)?.focus();
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };

  const [first] = spots;
  const known = spots.some((spot) => keyOf(spot) === current);
  return {
    held: {
      holding,
      current: known ? current : first === undefined ? '' : keyOf(first),
      pointerDown,
      keyDown,
      focused: (spot) => setCurrent(keyOf(spot)),
      left: () => {
        if (holding?.by === 'keys') letGo(holding, false);
      },
      labelOf: (spot, block) => labelOf(picture, spot, block.from_s),
    },
    told: holding?.by === 'pointer' ? holding.words : told,
  };
}

const samePlace = (a: Place, b: Place): boolean => a.lane === b.lane && a.section === b.section && a.gap === b.gap;

const nameIn = (picture: RibbonPicture, spot: Spot): string =>
  picture.lanes[spot.lane]?.sections.flatMap((one) => one.blocks).find((one) => one.animal === spot.animal)?.name ?? '';

const leftWords = (picture: RibbonPicture, spot: Spot): string =>
  say('ribbon.hand.left', { animal: nameIn(picture, spot) });

function labelOf(picture: RibbonPicture, spot: Spot, from_s: number): string {
  const section = picture.lanes[spot.lane]?.sections.find((one) => one.id === spot.section);
  const blocks = section === undefined ? [] : firstBlocks(section);
  return say('ribbon.hand.block', {
    animal: nameIn(picture, spot),
    at: { instant: new Date(picture.zero_ms + from_s * 1000).toISOString() },
    place: blocks.findIndex((one) => one.animal === spot.animal) + 1,
    places: blocks.length,
    section: section?.name ?? '',
  });
}

/** The place under a pointer: in the strip that is nearest in height, in the lane there, at the moment there. */
function placeUnder(
  root: HTMLElement | null,
  picture: RibbonPicture,
  { x, y }: { readonly x: number; readonly y: number },
): Place | null {
  const away = (svg: SVGSVGElement): number => {
    const { top, bottom } = svg.getBoundingClientRect();
    return Math.max(top - y, y - bottom, 0);
  };
  const strips = [...(root?.querySelectorAll<SVGSVGElement>('svg[data-strip]') ?? [])];
  const [svg] = strips.sort((a, b) => away(a) - away(b));
  const matrix = svg?.getScreenCTM();
  if (svg === undefined || matrix == null) return null;
  const data = JSON.parse(svg.dataset.strip ?? '') as StripData;
  const point = new DOMPoint(x, y).matrixTransform(matrix.inverse());
  const [deep, long] = data.frame.down ? [point.x, point.y] : [point.y, point.x];
  const apart = (one: StripData['lanes'][number]): number => Math.max(one.top - deep, deep - one.top - one.depth, 0);
  const [nearest] = [...data.lanes].sort((a, b) => apart(a) - apart(b));
  const lane = nearest === undefined ? undefined : picture.lanes[nearest.lane];
  if (nearest === undefined || lane === undefined) return null;
  return placeIn(lane, nearest.lane, momentAt(data.frame, long));
}

/** The same to look at, for the eye only. */
function likenessOf(element: SVGGElement): SVGGElement {
  const copy = element.cloneNode(true) as SVGGElement;
  for (const name of ['role', 'tabindex', 'data-hand', 'aria-label', 'aria-pressed']) copy.removeAttribute(name);
  copy.setAttribute('aria-hidden', 'true');
  copy.setAttribute('class', 'ribbon-grip held');
  return copy;
}
