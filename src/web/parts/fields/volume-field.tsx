import { readVolume, type SyringeScale, type VolumeReading } from '../../../core/quantity/read-volume.js';
import { writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { Act } from '../act.js';
import { Field } from './field.js';

interface VolumeFieldProps {
  readonly label: string;
  readonly text: string;
  readonly onText: (text: string) => void;
  /** Chosen of two readings, microlitres; null otherwise. */
  readonly chosen: number | null;
  readonly onChosen: (ul: number | null) => void;
  readonly scale?: SyringeScale | null;
}

/** A volume as people type it, said back in millilitres; two readings are asked about. */
export function VolumeField({ label, text, onText, chosen, onChosen, scale = null }: VolumeFieldProps) {
  const reading: VolumeReading | null = text.trim() === '' ? null : readVolume(text, scale);
  return (
    <div className="stack tight">
      <Field
        label={label}
        value={text}
        onChange={(next) => {
          onChosen(null);
          onText(next);
        }}
        inputMode="decimal"
        figure
        narrow
        wrong={reading?.is === 'no' ? say(reading.why) : null}
        echo={reading?.is === 'volume' ? writeVolume(reading.ul) : undefined}
      />
      {reading?.is === 'ask' ? (
        <fieldset className="row bare">
          <legend>{say(reading.why)}</legend>
          {reading.readings.map((ul) => (
            <Act key={ul} main={chosen === ul} onAct={() => onChosen(ul)}>
              {writeVolume(ul)}
            </Act>
          ))}
        </fieldset>
      ) : null}
    </div>
  );
}

/** Microlitres that a field stands for now, or null while empty, unreadable or not chosen. */
export function volumeIn(text: string, scale: SyringeScale | null, chosen: number | null): number | null {
  if (chosen !== null) return chosen;
  const reading = text.trim() === '' ? null : readVolume(text, scale);
  return reading?.is === 'volume' ? reading.ul : null;
}
