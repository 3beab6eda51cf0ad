import { dayOfInstant } from '../core/calendar.js';
import { arrivalNow, type Context } from './context.js';

/** Sign a head when none was signed on the shelter's day yet. True when one was. */
export async function signDaily(context: Pick<Context, 'heads' | 'store' | 'clock' | 'shelter'>): Promise<boolean> {
  const { heads } = context;
  const { zone, id } = await context.shelter();
  if (heads === null || id === null) return false;
  const today = dayOfInstant((await arrivalNow(context)).receivedAt, zone);
  const last = heads.kept().at(-1);
  if (last !== undefined && dayOfInstant(last.at, zone) === today) return false;
  return (await heads.sign()).ok;
}
