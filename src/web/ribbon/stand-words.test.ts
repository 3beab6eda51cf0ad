import { describe, expect, it } from 'vitest';
import { everyState } from '../../../test/support/every-state.js';
import { when } from '../../../test/support/round-log.js';
import { standOf } from '../../log/bedside/stand.js';
import { lineWords } from '../../told/line-words.js';
import { standsInWords, standWords } from '../../told/stand-words.js';
import { blockInWords } from './drawing/ribbon-data.js';
import { livePicture } from './live-picture.js';
import { namesIn } from './named.js';

const saysDone = (text: string): boolean => /\bdone\b/.test(text) && !/\bnot (all )?done\b/.test(text);

describe('one round in all its states, in words (Verifies: ROUND-R90)', () => {
  const { world, view } = everyState();
  const stops = view.stops.flatMap(({ animals }) => animals);

  it('overview and section head say the same number, and name every other animal once', () => {
    expect(standsInWords(stops)).toBe(
      '1 of 10 animals done · 1 stopped: wrong animal · 1 with two chip numbers · 1 reactive · 2 to be tested again · 1 with a running test · 1 to do · 1 to be looked at · 1 with something left',
    );
  });

  it('list, strip of time and desk call done exactly the animals that are', () => {
    const done = stops.filter((stop) => standOf(stop) === 'done').map(({ animal }) => animal.id as string);
    expect(done).toEqual(['kit-1']);
    expect(stops.filter((stop) => saysDone(standWords(standOf(stop)))).map(({ animal }) => animal.id)).toEqual(done);
    const now_s = (Date.parse(when('15:10')) - Date.parse(when('13:30'))) / 1000;
    const blocks = livePicture(world, view, null, now_s, namesIn(world)).lanes[0]?.sections[0]?.blocks ?? [];
    expect(blocks.filter(({ state }) => state === 'done').map(({ animal }) => animal)).toEqual(done);
    for (const block of blocks) {
      const stop = stops.find(({ animal }) => animal.id === block.animal);
      expect(blockInWords(block)).toBe(`${block.name}, ${stop === undefined ? '' : standWords(standOf(stop))}`);
    }
    // Test, chip and treatment lines of the desk: only a negative test has a word for it that is not "done".
    const lines = stops.flatMap((stop) => stop.lines);
    expect(lines.filter((line) => saysDone(lineWords(line).text))).toEqual([]);
  });
});
