import type { HabitQuestion, Habits } from '../../../core/intake/habits.js';
import type { PlaceAnswer } from '../../../core/intake/place.js';
import type { PlaceToAsk } from '../../../core/intake/plan-import.js';
import { weightUnits } from '../../../core/quantity/units.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/choices.js';
import { Part } from '../../parts/page.js';
import { Pick } from '../../parts/pick.js';
import { useShelter } from '../../store/here.js';

/** A person's answers about how this file writes things; null where nothing was asked or answered. */
export type Asked = Pick<Habits, 'dateOrder' | 'decimal' | 'weightUnit'>;

interface AnswersProps {
  readonly questions: readonly HabitQuestion[];
  readonly asked: Asked;
  readonly onAsked: (asked: Asked) => void;
  readonly places: readonly PlaceToAsk[];
  readonly answers: Readonly<Record<string, PlaceAnswer>>;
  readonly onPlaces: (answers: Readonly<Record<string, PlaceAnswer>>) => void;
}

const orders = ['day-first', 'month-first'] as const;
const signs = ['.', ','] as const;

/** What only a person can say, asked once for the whole file. */
export function Answers({ questions, asked, onAsked, places, answers, onPlaces }: AnswersProps) {
  const { sections } = useShelter();
  if (questions.length === 0 && places.length === 0 && Object.keys(answers).length === 0) return null;
  const placeOptions: { id: PlaceAnswer; label: string }[] = [
    ...sections.filter((one) => !one.closed).map((one) => ({ id: one.id, label: one.name })),
    { id: 'no-section', label: say('desk.import.place.no-section') },
    { id: 'not-here', label: say('desk.import.place.not-here') },
  ];
  const open = [...places.map((one) => ({ key: one.answerKey, place: one.place, rows: one.rows }))];
  const given = Object.keys(answers).filter((key) => !open.some((one) => one.key === key));
  return (
    <Part title={say('desk.import.questions')}>
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
