import { dayOfInstant } from '../core/calendar.js';
import { arrivalNow, type Context } from './context.js';

/** Seconds between looks at the calendar. */
const look_s = 30;

type Watching = Pick<Context, 'store' | 'clock' | 'shelter' | 'grown'>;

/** Bring the read tables to the shelter's day, if they are not there. True when they had to be brought. */
export async function bringToToday(context: Omit<Watching, 'grown'>): Promise<boolean> {
  const { receivedAt: now } = await arrivalNow(context);
  const { zone } = await context.shelter();
  const { rowsOn } = await context.store.head();
  if (rowsOn === dayOfInstant(now, zone)) return false;
  await context.store.append([], now);
  return true;
}

/** Look every half minute whether a new day has begun in the shelter; gives a function that stops looking. */
export function watchTheDay(context: Watching, troubled: (error: unknown) => void): () => void {
  const timer = setInterval(() => {
    bringToToday(context)
      .then(async (brought) => {
        if (brought) context.grown.tell(await context.store.head());
      })
      .catch(troubled);
  }, look_s * 1000);
  timer.unref();
  return () => clearInterval(timer);
}
