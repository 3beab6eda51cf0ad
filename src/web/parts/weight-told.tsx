import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { alarmsOfWeight } from '../../log/views/sick.js';
import { say } from '../../words/say.js';
import { useShelter } from '../store/here.js';
import { Notice } from './state.js';

interface WeightToldProps {
  readonly animal: Animal;
  /** What is typed; null while that is no weight, or one that is to be weighed again first. */
  readonly grams: number | null;
  readonly at: string;
  readonly on: CalendarDate;
}

/** What the medical team will be told of the weight in the field, before it is kept: nobody is to find out afterwards. */
export function WeightTold({ animal, grams, at, on }: WeightToldProps) {
  const shelter = useShelter();
  const alarms = grams === null ? [] : alarmsOfWeight(animal, { grams, at, on }, shelter);
  return alarms.map(({ code, severity, why }) => (
    <Notice key={code} tone={severity} live={severity === 'stop' ? 'alert' : 'status'}>
      {say(why)}
    </Notice>
  ));
}
