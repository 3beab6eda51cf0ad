import { expect, it } from 'vitest';
import { StopsShown } from './stops-shown.js';

it('tells the dialogs when a stop comes and when the last has gone (Verifies: ROUND-R80)', () => {
  const stops = new StopsShown();
  const heard: boolean[] = [];
  stops.listen(() => heard.push(stops.stands()));
  const first = stops.show();
  const second = stops.show();
  first();
  first();
  second();
  expect(heard).toEqual([true, true, true, false]);
});
