import { Button } from 'react-aria-components';
import type { KitType } from '../../core/dosing/formulary.js';
import type { Seen } from '../../core/point-of-care/result.js';
import { say } from '../../words/say.js';

const answers = ['seen', 'faint', 'not-seen'] as const;

/** Every zone of the kit with what is seen in it; nothing is answered beforehand. */
export function Zones({ kit, seen, onSeen }: { kit: KitType; seen: Seen; onSeen: (seen: Seen) => void }) {
  return (
    <div className="round-list">
      {kit.zones.map((zone) => {
        const answer = seen[zone.id];
        return (
          <fieldset key={zone.id} className="zone">
            <legend className="away">{say('round.read.zone', { zone: zone.name, printed: zone.printed })}</legend>
            <div className="row">
              <span className={answer === undefined || answer === 'not-seen' ? 'spot' : 'spot on'} aria-hidden="true" />
              <span>
                <b>{zone.name}</b>{' '}
                <span className="soft small">{say('round.read.printed', { printed: zone.printed })}</span>
              </span>
            </div>
            <div className="seen-choice">
              {answers.map((one) => (
                <Button
                  key={one}
                  className="btn mid"
                  aria-pressed={answer === one}
                  onPress={() => onSeen({ ...seen, [zone.id]: one })}
                >
                  {say(`round.seen.${one}`)}
                </Button>
              ))}
            </div>
          </fieldset>
        );
      })}
    </div>
  );
}
