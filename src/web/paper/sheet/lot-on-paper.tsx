import type { CalendarDate } from '../../../core/calendar.js';
import type { Lot } from '../../../log/views/shelter.js';
import { lotFaults, lotWritten } from '../../../papers/keyed-in/lot-written.js';
import { say } from '../../../words/say.js';
import { Field } from '../../parts/fields/field.js';
import { Notice } from '../../parts/state.js';
import { useShelter } from '../../store/here.js';

interface LotFieldProps {
  readonly label: string;
  readonly wanted: (of: Lot['of']) => boolean;
  readonly text: string;
  readonly onText: (text: string) => void;
  /** The day on which it was used. */
  readonly on: CalendarDate;
}

/** The lot as written on the paper, or nothing; it never begins with the one that was printed or is on the shelf. */
export function LotField({ label, wanted, text, onText, on }: LotFieldProps) {
  const shelter = useShelter();
  const { lot } = lotWritten(shelter, wanted, text);
  const known = lot === null ? undefined : shelter.lots.get(lot);
  const faults = lotFaults(shelter, wanted, text, on);
  const echo =
    text.trim() === ''
      ? say('ribbon.key-in.lot-empty')
      : known === undefined
        ? say('ribbon.key-in.lot-not-listed')
        : known.expires === null || faults.length > 0
          ? say('ribbon.key-in.lot-listed')
          : say('ribbon.key-in.lot-expires', { on: { date: known.expires } });
  return (
    <div className="stack tight">
      <Field label={label} value={text} onChange={onText} figure narrow maxLength={60} echo={echo} />
      {faults.map(({ stop, why }) => (
        <Notice key={say(why)} tone={stop ? 'stop' : 'attention'} live="alert">
          {say(why)}
        </Notice>
      ))}
    </div>
  );
}
