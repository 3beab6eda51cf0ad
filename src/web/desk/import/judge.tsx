import { useMemo, useState } from 'react';
import { AnimalId } from '../../../core/ids.js';
import { type ColumnMapping, columnsInWords } from '../../../core/intake/columns/fields.js';
import { guessMapping, noticesOf } from '../../../core/intake/columns/guess-mapping.js';
import { readHabits } from '../../../core/intake/columns/habits.js';
import type { PlaceAnswer } from '../../../core/intake/leaving/place.js';
import { planImport } from '../../../core/intake/plan-import.js';
import type { ImportContext, ReadRow } from '../../../core/intake/taken-in.js';
import { type NotTaken, notTaken } from '../../../exports/not-taken.js';
import { alreadyThere, draftsFromFile } from '../../../log/commands/from-file.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { Tick } from '../../parts/fields/choices.js';
import { Part } from '../../parts/page.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { newId, useWorld } from '../../store/here.js';
import { Answers, type Asked } from './answers.js';
import { ColumnMapper } from './column-mapper.js';
import { useOnRecord } from './left-before.js';
import type { OpenFile } from './open-file.js';
import { Preview } from './preview.js';

/** What stands there after a file was brought in: how many came in, and the rows that did not. */
export interface Done {
  readonly words: string;
  readonly rest: NotTaken;
}

const nothingAsked: Asked = { dateOrder: null, decimal: null, weightUnit: null, ageDay: null, tellsNothing: [] };

const readAs = (row: ReadRow): string => JSON.stringify(row);

/** Columns, questions, every row with its verdict, and at the end one batch of records. */
export function Judge({ file, onDone }: { file: OpenFile; onDone: (done: Done) => void }) {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const { table } = file;
  const guess = useMemo(
    () =>
      guessMapping(
        table.headings,
        table.rows.map((row) => row.cells),
      ),
    [table],
  );
  const [mapping, setMapping] = useState<ColumnMapping>(guess.mapping);
  const habits = useMemo(() => readHabits(table, mapping, today), [table, mapping, today]);
  const [asked, setAsked] = useState<Asked>(nothingAsked);
  const [places, setPlaces] = useState<Readonly<Record<string, PlaceAnswer>>>({});
  const [alsoLeft, setAlsoLeft] = useState(false);
  /** Doubtful rows that were ticked, each with what it was read as then. */
  const [ticked, setTicked] = useState<ReadonlyMap<number, string>>(new Map());

  const onRecord = useOnRecord();
  const context: ImportContext = {
    file: file.digest,
    today,
    sections: shelter.sections
      .filter((section) => !section.closed)
      .map(({ id, name, kennels }) => ({ id, name, kennels })),
    dateOrder: asked.dateOrder ?? habits.dateOrder,
    decimal: asked.decimal ?? habits.decimal,
    weightUnit: asked.weightUnit ?? habits.weightUnit,
    places,
    ageDay: asked.ageDay,
    tellsNothing: asked.tellsNothing,
    alsoLeft,
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: context is new each time; what it is made of is listed
  const plan = useMemo(
    () => planImport(table, mapping, context, typeof onRecord === 'string' ? alreadyThere(world) : onRecord),
    [table, mapping, asked, habits, places, alsoLeft, world, today, onRecord],
  );
  const notices = noticesOf(table.headings, guess, mapping);
  const unanswered =
    habits.questions.filter((question) => asked[question.about] === null).length +
    (plan.ages === null ? 0 : 1) +
    plan.mayTell.length;
  // A tick says yes to what stood there. Read in another way, the row is looked at anew.
  const doubtful = new Set(
    plan.rows.filter((row) => ticked.has(row.row) && ticked.get(row.row) === readAs(row)).map(({ row }) => row),
  );
  const tick = (rows: ReadonlySet<number>): void =>
    setTicked(new Map(plan.rows.filter(({ row }) => rows.has(row)).map((row) => [row.row, readAs(row)])));
  const taken = plan.rows.filter(
    (row) => row.verdict === 'accepted' || (row.verdict === 'doubtful' && doubtful.has(row.row)),
  );
  const ids = useMemo(() => new Map(table.rows.map((row) => [row.row, AnimalId.parse(newId())])), [table]);

  const intent = (): Intent => {
    if (typeof onRecord === 'string') return { missing: say(`desk.import.left-${onRecord}`) };
    if (unanswered > 0) return { missing: say('desk.import.unanswered', { count: unanswered }) };
    if (taken.length === 0) return { missing: say('desk.import.nothing-taken') };
    const rows = taken.flatMap((row) => {
      const animal = ids.get(row.row);
      return animal === undefined ? [] : [{ row, animal }];
    });
    const accepted = taken.filter((row) => row.verdict === 'accepted').length;
    const body = {
      name: file.name.slice(0, 200),
      digest: file.digest,
      accepted,
      doubtful: taken.length - accepted,
      refused: plan.rows.length - taken.length,
      columns: columnsInWords(table.headings, mapping),
    };
    const drafts = draftsFromFile(rows, body, now(), shelter.zone);
    // The file's own record is read first, whatever the animals after it.
    return [
      ...drafts.filter((one) => one.kind === 'file-imported'),
      ...drafts.filter((one) => one.kind !== 'file-imported'),
    ];
  };

  return (
    <>
      {notices.map((doubt) => (
        <Notice key={`${doubt.say} ${JSON.stringify(doubt.with)}`} tone="attention">
          {say(doubt)}
        </Notice>
      ))}
      <Part title={say('desk.import.columns')}>
        <ColumnMapper table={table} mapping={mapping} onMapping={setMapping} />
      </Part>
      <Answers
        questions={habits.questions}
        asked={asked}
        onAsked={setAsked}
        plan={plan}
        table={table}
        mapping={mapping}
        onMapping={setMapping}
        today={today}
        answers={places}
        onPlaces={setPlaces}
      />
      <Tick
        label={say('desk.import.also-left')}
        note={say('desk.import.also-left-note')}
        value={alsoLeft}
        onChange={setAlsoLeft}
      />
      <Part title={say('desk.import.rows')}>
        <Preview plan={plan} taken={doubtful} onTaken={tick} />
      </Part>
      <div className="sheet stack">
        <RecordFoot
          intent={intent()}
          action={say('desk.import.bring-in', { count: taken.length })}
          onSaved={() =>
            onDone({
              words: say('desk.import.done', { count: taken.length, name: file.name }),
              rest: notTaken(file.name, table, plan.rows, new Set(taken.map((row) => row.row)), say),
            })
          }
        />
      </div>
    </>
  );
}
