import type { CalendarDate } from '../../../core/calendar.js';
import { type ColumnMapping, isMapped } from '../../../core/intake/columns/fields.js';
import type { HabitQuestion, Habits } from '../../../core/intake/columns/habits.js';
import type { Table } from '../../../core/intake/file/table.js';
import type { PlaceAnswer } from '../../../core/intake/leaving/place.js';
import type { ImportPlan } from '../../../core/intake/plan-import.js';
import type { AgeDay } from '../../../core/intake/taken-in.js';
import { weightUnits } from '../../../core/quantity/units.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Pick } from '../../parts/fields/pick.js';
import { Part } from '../../parts/page.js';
import { useShelter } from '../../store/here.js';
import { AgeQuestion } from './age-question.js';
import { put } from './column-mapper.js';
import { ColumnQuestion } from './column-question.js';

/** A person's answers about how this file writes things; null where nothing was asked or answered. */
export interface Asked extends Pick<Habits, 'dateOrder' | 'decimal' | 'weightUnit'> {
  readonly ageDay: AgeDay | null;
  /** Columns that tell nothing about dying and leaving. */
  readonly tellsNothing: readonly number[];
}

interface AnswersProps {
  readonly questions: readonly HabitQuestion[];
  readonly asked: Asked;
  readonly onAsked: (asked: Asked) => void;
  readonly plan: ImportPlan;
  readonly table: Table;
  readonly mapping: ColumnMapping;
  readonly onMapping: (mapping: ColumnMapping) => void;
  readonly today: CalendarDate;
  readonly answers: Readonly<Record<string, PlaceAnswer>>;
  readonly onPlaces: (answers: Readonly<Record<string, PlaceAnswer>>) => void;
}

const orders = ['day-first', 'month-first'] as const;
const signs = ['.', ','] as const;

/** What only a person can say, asked once for the whole file. */
export function Answers(props: AnswersProps) {
  const { questions, asked, onAsked, plan, mapping, answers, onPlaces } = props;
  const { sections } = useShelter();
  const { places } = plan;
  const asksAges = plan.ages !== null || asked.ageDay !== null;
  const silent = asked.tellsNothing.filter((column) => !Object.values(mapping).flat().includes(column));
  const none = questions.length === 0 && places.length === 0 && Object.keys(answers).length === 0;
  if (none && !asksAges && plan.mayTell.length === 0 && silent.length === 0) return null;
  const placeOptions: { id: PlaceAnswer; label: string }[] = [
    ...sections.filter((one) => !one.closed).map((one) => ({ id: one.id, label: one.name })),
    { id: 'no-section', label: say('desk.import.place.no-section') },
    { id: 'not-here', label: say('desk.import.place.not-here') },
  ];
  const open = [...places.map((one) => ({ key: one.answerKey, place: one.place, rows: one.rows }))];
  const given = Object.keys(answers).filter((key) => !open.some((one) => one.key === key));
  return (
    <Part title={say('desk.import.questions')}>
      <ColumnQuestions {...props} silent={silent} />
      {asksAges ? (
        <AgeQuestion
          ages={plan.ages}
          value={asked.ageDay}
          onChange={(ageDay) => onAsked({ ...asked, ageDay })}
          today={props.today}
          hasLeaving={isMapped(mapping, 'left')}
        />
      ) : null}
      {questions.map((question) => {
        switch (question.about) {
          case 'dateOrder':
            return (
              <ChooseOne
                key="order"
                label={say(question.ask)}
                options={orders.map((id) => ({ id, label: say(`desk.import.order.${id}`) }))}
                value={asked.dateOrder}
                onChange={(dateOrder) => onAsked({ ...asked, dateOrder })}
                flow
              />
            );
          case 'decimal':
            return (
              <ChooseOne
                key="sign"
                label={say(question.ask)}
                options={signs.map((id) => ({ id, label: say(`desk.import.sign.${id === '.' ? 'point' : 'comma'}`) }))}
                value={asked.decimal}
                onChange={(decimal) => onAsked({ ...asked, decimal })}
                flow
              />
            );
          default:
            return (
              <ChooseOne
                key="unit"
                label={say(question.ask)}
                options={weightUnits.map((id) => ({ id, label: say(`desk.import.unit.${id}`) }))}
                value={asked.weightUnit}
                onChange={(weightUnit) => onAsked({ ...asked, weightUnit })}
                flow
              />
            );
        }
      })}
      {[...open, ...given.map((key) => ({ key, place: key, rows: 0 }))].slice(0, 40).map((one) => (
        <Pick<PlaceAnswer>
          key={one.key}
          label={say('desk.import.place.ask', {
            place: one.place === '' ? say('desk.import.place.blank') : one.place,
            rows: one.rows,
          })}
          options={placeOptions}
          value={answers[one.key] ?? null}
          onChange={(answer) => onPlaces({ ...answers, [one.key]: answer })}
          narrow
        />
      ))}
    </Part>
  );
}

/** The columns that may tell who has died or left: those to be answered, then those that were said to tell nothing. */
function ColumnQuestions(props: AnswersProps & { readonly silent: readonly number[] }) {
  const { plan, table, mapping, onMapping, asked, onAsked, silent } = props;
  const { tellsNothing } = asked;
  const asks = [
    ...plan.mayTell.map((open) => ({ open, column: open.column })),
    ...silent.map((column) => ({ open: null, column })),
  ];
  return asks.map(({ open, column }) => (
    <ColumnQuestion
      key={column}
      heading={table.headings[column] ?? ''}
      open={open}
      onUse={(field) => {
        onAsked({ ...asked, tellsNothing: tellsNothing.filter((one) => one !== column) });
        onMapping(put(mapping, column, field));
      }}
      onNothing={() => onAsked({ ...asked, tellsNothing: [...tellsNothing, column] })}
    />
  ));
}
