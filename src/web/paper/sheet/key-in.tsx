import { useCallback, useState } from 'react';
import type { RoundId } from '../../../core/ids.js';
import type { Said } from '../../../core/said.js';
import { type CodedLine, readLineCode } from '../../../log/plan/line-code.js';
import { roundView } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Field } from '../../parts/fields/field.js';
import { Page } from '../../parts/page.js';
import { Notice } from '../../parts/state.js';
import { useScan } from '../../scan/use-scan.js';
import { useWorld } from '../../store/here.js';
import { KeyInLine } from './key-in-line.js';
import { nobodyYet, type WhoDid } from './who-did.js';

/**
 * At the desk, with the paper sheets of a day: scan a line's code, or type it and press Enter, and say what was written
 * beside it. Then the code field waits for the next one.
 */
export function KeyIn() {
  const world = useWorld();
  const [text, setText] = useState('');
  const [line, setLine] = useState<CodedLine | null>(null);
  const [why, setWhy] = useState<Said | null>(null);
  const [done, setDone] = useState(0);
  const [who, setWho] = useState<ReadonlyMap<RoundId, WhoDid>>(new Map());
  const look = (code: string): void => {
    const read = readLineCode(code, world.shelter.rounds.values());
    setWhy(read.ok ? null : read.why);
    setLine(read.ok ? read.value : null);
    setText(code.trim());
  };
  useScan(look);
  const onKept = useCallback(() => {
    setDone((before) => before + 1);
    setLine(null);
    setText('');
  }, []);
  const view = line === null ? null : roundView(world, line.round);
  const stop = view?.stops.flatMap((at) => at.animals).find((one) => one.animal.id === line?.animal) ?? null;
  const own = stop?.lines.find((one) => one.schedule === line?.schedule) ?? null;
  return (
    <Page title={say('ribbon.key-in.title')} lead={say('ribbon.key-in.lead')}>
      <form
        className="row end"
        onSubmit={(event) => {
          event.preventDefault();
          if (text.trim() !== '') look(text);
        }}
      >
        <Field
          // A field of its own for each line: it takes the cursor again when one has been recorded.
          key={done}
          label={say('ribbon.key-in.code')}
          value={text}
          onChange={setText}
          figure
          narrow
          maxLength={40}
          autoFocus
        />
        <Act submit main size="mid" disabled={text.trim() === ''}>
          {say('ribbon.key-in.open')}
        </Act>
      </form>
      {why === null ? null : (
        <Notice tone="stop" live="alert">
          {say(why)}
        </Notice>
      )}
      {done === 0 ? null : <Notice tone="done">{say('ribbon.key-in.kept', { count: done })}</Notice>}
      {line === null || view === null || stop === null || own === null ? null : (
        <KeyInLine
          key={`${line.round} ${line.number}`}
          view={view}
          stop={stop}
          line={own}
          who={who.get(line.round) ?? nobodyYet}
          onWho={(next) => setWho((before) => new Map(before).set(line.round, next))}
          onKept={onKept}
          onCode={look}
        />
      )}
      {line !== null && own === null ? <Notice tone="stop">{say('ribbon.key-in.gone')}</Notice> : null}
    </Page>
  );
}
