import { useState } from 'react';
import type { ImportPlan } from '../../../core/intake/plan-import.js';
import type { ReadRow, Verdict } from '../../../core/intake/taken-in.js';
import { tell } from '../../../told/tell.js';
import type { Tone } from '../../../told/tone.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';

const tones: Readonly<Record<Verdict, Tone>> = { accepted: 'done', doubtful: 'attention', refused: 'stop' };
const verdicts = ['doubtful', 'refused', 'accepted'] as const;
/** Rows drawn at once; the verdicts are counted over all of them. */
const most = 200;

interface PreviewProps {
  readonly plan: ImportPlan;
  readonly taken: ReadonlySet<number>;
  readonly onTaken: (rows: ReadonlySet<number>) => void;
}

/** Row by row: taken as it is, to be looked at, or not taken, and why. Doubtful rows come in only when ticked. */
export function Preview({ plan, taken, onTaken }: PreviewProps) {
  const [show, setShow] = useState<Verdict>(plan.counts.doubtful > 0 ? 'doubtful' : 'accepted');
  const rows = plan.rows.filter((row) => row.verdict === show);
  const doubtful = plan.rows.filter((row) => row.verdict === 'doubtful').map((row) => row.row);
  const toggle = (row: number): void => {
    const next = new Set(taken);
    if (!next.delete(row)) next.add(row);
    onTaken(next);
  };
  return (
    <div className="stack">
      <ChooseOne
        label={say('desk.due.show')}
        options={verdicts.map((id) => ({ id, label: say(`desk.import.verdict.${id}`, { count: plan.counts[id] }) }))}
        value={show}
        onChange={setShow}
        flow
      />
      {plan.counts.alreadyThere > 0 && show === 'refused' ? (
        <p>{say('desk.import.already-there', { count: plan.counts.alreadyThere })}</p>
      ) : null}
      {show === 'doubtful' && doubtful.length > 0 ? (
        <div className="row">
          <Act size="small" onAct={() => onTaken(new Set(doubtful))}>
            {say('desk.import.take-all', { count: doubtful.length })}
          </Act>
          <Act size="small" onAct={() => onTaken(new Set())}>
            {say('desk.import.take-none')}
          </Act>
        </div>
      ) : null}
      <DataTable
        caption={say('desk.import.rows')}
        rows={rows.slice(0, most)}
        keyOf={(row) => String(row.row)}
        empty={say('desk.import.no-rows')}
        columns={[
          { id: 'row', label: say('desk.import.row'), num: true, cell: (row) => row.row },
          {
            id: 'name',
            label: say('desk.animal.animal'),
            names: true,
            cell: (row) => [row.name, row.label].filter((part) => part !== '').join(' · '),
          },
          { id: 'read', label: say('desk.import.read-as'), cell: (row) => <ReadAs row={row} /> },
          {
            id: 'why',
            label: say('desk.import.verdict'),
            cell: (row) => (
              <>
                <State tone={tones[row.verdict]}>{say(`desk.import.verdict-word.${row.verdict}`)}</State>
                {[...row.reasons, ...row.notes].map((reason) => (
                  <div key={`${reason.say} ${JSON.stringify(reason.with)}`} className="small">
                    {say(reason)}
                  </div>
                ))}
              </>
            ),
          },
          {
            id: 'take',
            label: say('desk.import.take'),
            cell: (row) =>
              row.verdict === 'doubtful' ? (
                <label className="row nowrap">
                  <input
                    type="checkbox"
                    className="tick"
                    checked={taken.has(row.row)}
                    onChange={() => toggle(row.row)}
                  />
                  {say('desk.import.take-row', { row: row.row })}
                </label>
              ) : null,
          },
        ]}
      />
      {rows.length > most ? (
        <p className="soft">{say('desk.import.more-rows', { count: rows.length - most })}</p>
      ) : null}
    </div>
  );
}

/** The row as the record that it would become. */
function ReadAs({ row }: { row: ReadRow }) {
  const world = useWorld();
  if (row.animal === null) return null;
  const subject = 'animal:new';
  const lines = [
    say(tell(world, { kind: 'animal-taken-in', subject, body: row.animal })),
    row.weight === null
      ? ''
      : say('desk.import.weight', { weight: { grams: row.weight.grams }, entered: row.weight.entered }),
    row.chip === null ? '' : say('desk.import.chip', { chip: row.chip.code }),
  ];
  return (
    <>
      {lines
        .filter((line) => line !== '')
        .map((line) => (
          <div key={line} className="small">
            {line}
          </div>
        ))}
    </>
  );
}
