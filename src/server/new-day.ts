import { dayOfInstant } from '../core/calendar.js';
import type { LogStore } from '../log/store.js';
import type { Context } from './context.js';

/** Seconds between looks at the calendar. */
const look_s = 30;

/** Bring the read tables to the shelter's day, if they are not there. True when they had to be brought. */
export async function bringToToday(context: Pick<Context, 'store' | 'clock' | 'shelter'>): Promise<boolean> {
  const now = context.clock();
  const { zone } = await context.shelter();
  const { rowsOn } = await (context.store satisfies LogStore).head();
  if (rowsOn === dayOfInstant(now, zone)) return false;
  await context.store.append([], now);
  return true;
}

/** Look every half minute whether a new day has begun in the shelter; gives a function that stops looking. */
export function watchTheDay(context: Context, troubled: (error: unknown) => void): () => void {
  const timer = setInterval(() => {
    bringToToday(context).then(async (brought) => {
      if (brought) context.grown.tell(await context.store.head());
    }, troubled);
  }, look_s * 1000);
  timer.unref();
  return () => clearInterval(timer);
}
