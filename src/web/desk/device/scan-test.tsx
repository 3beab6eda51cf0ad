import { useState } from 'react';
import { readChip } from '../../../core/chip/read-chip.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { Notice } from '../../parts/state.js';
import { useScan } from '../../scan/use-scan.js';

/** Does the reader reach this page, and does its number arrive whole? Nothing is recorded. */
export function ScanTest() {
  const [on, setOn] = useState(false);
  const [raw, setRaw] = useState<string | null>(null);
  useScan(on ? setRaw : null);
  const read = raw === null ? null : readChip(raw);
  return (
    <div className="stack">
      <p>{say('desk.device.scanner-how')}</p>
      <div>
        <Act onAct={() => setOn(!on)}>{say(on ? 'desk.device.scanner-stop' : 'desk.device.scanner-start')}</Act>
      </div>
      {on && raw === null ? <p role="status">{say('desk.device.scanner-waits')}</p> : null}
      {read === null ? null : (
        <Notice tone={read.ok ? 'done' : 'stop'} live="status">
          {read.ok
            ? say('desk.device.scanner-read', { chip: chipText(read.value.code), raw: raw ?? '' })
            : `${say(read.why)} ${say('desk.device.scanner-raw', { raw: raw ?? '' })}`}
        </Notice>
      )}
      {read?.ok ? <ChipWarnings warnings={read.value.warnings} /> : null}
    </div>
  );
}
