import { useState } from 'react';
import type { Animal } from '../../../../core/animal/animal.js';
import { wallOf } from '../../../../core/wall-time.js';
import type { LogRecord } from '../../../../log/record.js';
import { worthOf } from '../../../../log/views/due/due.js';
import { byHappening, replacedIn } from '../../../../log/views/effective.js';
import { resultWords, toneOfResult } from '../../../../told/result-words.js';
import { tell } from '../../../../told/tell.js';
import { personName, say } from '../../../../words/say.js';
import { useToday } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { State } from '../../../parts/state.js';
import { useWorld } from '../../../store/here.js';
import { CorrectSheet } from './correct-sheet.js';

const none: readonly LogRecord[] = [];

/** Minutes between happening and writing down from which both are shown. Ours. */
const lateBy_min = 5;

/** Every record of the animal, newest first; what was corrected or withdrawn stays, struck through, with its successor. */
export function Happened({ animal }: { animal: Animal }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const [changing, setChanging] = useState<LogRecord | null>(null);
  const own = world.bySubject.get(`animal:${animal.id}`) ?? none;
  const records = [...own].sort((a, b) => byHappening(b, a));
  const replaced = replacedIn(own);
  const worth = worthOf(animal, world.shelter, today);
  return (
    <>
      <ol className="plain happened">
        {records.map((record) => (
          <li key={record.id} id={`record-${record.id}`}>
            <When record={record} />
            <div className="stack tight">
              <p className={replaced.has(record.id) ? 'struck' : ''}>{say(tell(world, record))}</p>
              <CameTo animal={animal} record={record} />
              <Beside record={record} by={replaced.get(record.id)} />
              {replaced.has(record.id)
                ? null
                : worth
                    .filter((one) => one.record === (record.corrects ?? record.id) && one.status !== 'valid')
                    .map((one) => (
                      <p key={one.schedule} className="small">
                        <State tone={one.status === 'extra' || one.status === 'pending' ? 'plain' : 'attention'}>
                          {say(one.why)}
                        </State>
                      </p>
                    ))}
            </div>
            {replaced.has(record.id) || record.kind === 'record-withdrawn' ? null : (
              <span className="no-print">
                <Act
                  size="quiet"
                  label={say('desk.correct.this', { what: say(tell(world, record)) })}
                  onAct={() => setChanging(record)}
                >
                  {say('desk.correct.open')}
                </Act>
              </span>
            )}
          </li>
        ))}
      </ol>
      {changing === null ? null : <CorrectSheet record={changing} onClose={() => setChanging(null)} />}
    </>
  );
}

/** What a reading means, beside what was seen: only a negative one has a tick. */
function CameTo({ animal, record }: { animal: Animal; record: LogRecord }) {
  if (record.kind !== 'test-read' && record.kind !== 'test-abandoned') return null;
  const id = record.corrects ?? record.id;
  // Each reading says what it came to itself, also where another one of the same kit stands.
  const reading = animal.runs.flatMap((one) => one.readings ?? []).find((one) => one.record === id);
  const run = reading ?? animal.runs.find((one) => one.readRecord === id);
  if (run === undefined) return null;
  return (
    <p className="small">
      <State tone={toneOfResult(run.result)}>{resultWords(run)}</State>
    </p>
  );
}

function When({ record }: { record: LogRecord }) {
  const { day, time } = wallOf(record.happenedAt, record.zone);
  return (
    <time dateTime={record.happenedAt} className="mono small">
      {day}
      <br />
      {time.slice(0, 5)}
    </time>
  );
}

/** When it was written down, and by whom if that was somebody else. */
function writtenDown({ writtenBy, recordedAt }: LogRecord): string {
  const at = { instant: recordedAt };
  if (writtenBy === undefined) return say('desk.happened.written', { at });
  return say('desk.happened.written-by', { writer: personName(writtenBy), at });
}

/** Who, with whom, written down when, and what took its place. */
function Beside({ record, by }: { record: LogRecord; by: LogRecord | undefined }) {
  const late = Date.parse(record.recordedAt) - Date.parse(record.happenedAt) > lateBy_min * 60_000;
  return (
    <p className="soft small">
      {record.with === undefined
        ? say('desk.happened.by', { by: personName(record.by) })
        : say('desk.happened.by-with', { by: personName(record.by), with: personName(record.with) })}
      {late || record.writtenBy !== undefined ? ` ${writtenDown(record)}` : ''}
      {record.seq === undefined ? ` ${say('desk.happened.unsent')}` : ''}
      {record.corrects === undefined ? null : (
        <>
          {' '}
          <a href={`#record-${record.corrects}`}>{say('desk.happened.corrects')}</a>
        </>
      )}
      {by === undefined ? null : (
        <>
          {' '}
          <a href={`#record-${by.id}`}>
            {say(by.kind === 'record-withdrawn' ? 'desk.happened.withdrawn' : 'desk.happened.corrected')}
          </a>
        </>
      )}
    </p>
  );
}
