import { wayPast } from '../../../core/bedside/gate-ways.js';
import type { Gate } from '../../../core/dosing/gate.js';
import { say } from '../../../words/say.js';
import { Sentence } from '../../parts/sentence.js';

/** A stop with its sentence and with who can open it. */
export function StopLine({ gate }: { gate: Gate }) {
  return (
    <div className="notice stop" role="alert">
      <b>
        <span aria-hidden="true">■ </span>
        {say(`gate.${gate.code}`)}
      </b>
      <p>
        <Sentence what={gate.why} /> {say(`round.gate.way.${wayPast(gate.code)}`)}
      </p>
    </div>
  );
}
