import type { FormularyDocument } from '../../../core/dosing/formulary.js';
import { writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { Part } from '../../parts/page.js';
import { measuringLines } from './formulary-lines.js';
import { SourcedLines, SourceTitle } from './sourced.js';

/** Rules of the formulary that hold whatever the product: what is never given, small volumes, measuring, spacing. */
export function MeasuringView({ formulary }: { formulary: FormularyDocument }) {
  return (
    <>
      <Part title={say('desk.doc.never')}>
        <ul>
          {formulary.neverForCats.map((one) => (
            <li key={one.ingredient}>
              <b>{one.ingredient}</b>: {one.why}{' '}
              <span className="small soft">
                <SourceTitle id={one.source} sources={formulary.sources} />
              </span>
            </li>
          ))}
        </ul>
      </Part>
      <Part title={say('desk.doc.floors')}>
        <ul>
          {formulary.volumeFloors.map((floor) => (
            <li key={floor.below_ul}>
              {say('desk.doc.floor', {
                volume: writeVolume(floor.below_ul),
                what: say(`desk.doc.severity.${floor.severity}`),
              })}
              {floor.maxMark_ul === null
                ? ''
                : ` ${say('desk.doc.floor-mark', { volume: writeVolume(floor.maxMark_ul) })}`}
            </li>
          ))}
        </ul>
        <p className="small soft">
          <SourceTitle id={formulary.volumeFloorsSource} sources={formulary.sources} />
        </p>
      </Part>
      <Part title={say('desk.doc.measuring')}>
        <SourcedLines lines={measuringLines(formulary)} sources={formulary.sources} />
      </Part>
    </>
  );
}
