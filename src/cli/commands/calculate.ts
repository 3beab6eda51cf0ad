import { CalendarDate, dayOfInstant, daysBetween } from '../../core/calendar.js';
import { ChipInput, calculateChip } from '../../core/chip/calculate.js';
import { calculateDose, DoseInput } from '../../core/dosing/calculate.js';
import { calculatePrediction, PredictInput } from '../../core/point-of-care/calculate.js';
import { calculateForecast, ForecastInput } from '../../core/protocol/engine/calculate.js';
import { no, type Outcome, said } from '../../core/said.js';
import type { Command, CommandName, Given, Options } from '../command.js';
import { firstIssue, readFormulary, readProtocol } from '../documents.js';
import { type Exit, failed, misused } from '../exit.js';
import { complain, tell, withWords } from '../output.js';
import { jsonLines } from '../read-lines.js';

type Calculate = (raw: unknown) => Outcome<unknown>;

/** What came in on a line, read by the calculator's own schema. */
interface Shape<T> {
  readonly safeParse: (
    raw: unknown,
  ) =>
    | { success: true; data: T }
    | { success: false; error: { issues: readonly { path: readonly PropertyKey[]; message: string }[] } };
}

/**
 * A calculator reads JSON lines on stdin and writes one JSON line for each: the answer, or `{"error": ...}` with the
 * sentence why not, which also goes to stderr. It goes on to the end whatever one line says.
 */
function calculator(
  name: CommandName,
  options: Options,
  example: string,
  prepare: (given: Given) => Outcome<Calculate>,
): Command {
  return {
    name,
    options,
    example,
    run: async (given): Promise<Exit> => {
      if (process.stdin.isTTY) return misused('cli.needs-stdin', { command: name });
      const date = given.text('date');
      if (date !== null && !CalendarDate.safeParse(date).success) return misused('cli.not-a-date', { given: date });
      const calculate = prepare(given);
      if (!calculate.ok) return failed(calculate.why);
      let wrong = 0;
      for await (const burst of jsonLines()) {
        const answers = burst.map(({ line, value }) => {
          const answer = value === undefined ? noJson : answered(calculate.value, value);
          if (answer.ok) return JSON.stringify(withWords(answer.value));
          wrong++;
          complain(said('cli.record.line', { line, why: answer.why }));
          return JSON.stringify({ error: withWords(answer.why), line });
        });
        if (answers.length > 0) tell(answers.join('\n'));
      }
      return { code: wrong === 0 ? 0 : 1 };
    },
  };
}

/** A fault of the program on one line is that line's answer, and the lines after it are read all the same. */
export function answered(calculate: Calculate, value: unknown): Outcome<unknown> {
  try {
    return calculate(value);
  } catch (fault) {
    return no('cli.calculate.fault', { detail: fault instanceof Error ? fault.message : String(fault) });
  }
}

const noJson: Outcome<never> = { ok: false, why: said('cli.record.no-json') };

function reading<T>(shape: Shape<T>, calculate: (input: T) => Outcome<unknown>): Calculate {
  return (raw) => {
    const parsed = shape.safeParse(raw);
    if (parsed.success) return calculate(parsed.data);
    return { ok: false, why: said('cli.calculate.malformed', { detail: firstIssue(parsed.error) }) };
  };
}

const now = (): string => new Date().toISOString();
const dayGiven = (given: Given): CalendarDate =>
  CalendarDate.parse(given.text('date') ?? dayOfInstant(now(), Intl.DateTimeFormat().resolvedOptions().timeZone));

/** The day asked about, the same time on it, and the moment of the run, from which hours are counted back. */
function momentGiven(given: Given): { today: CalendarDate; now: string; asked: string } {
  const asked = now();
  const today = dayGiven(given);
  const days = daysBetween(dayOfInstant(asked, Intl.DateTimeFormat().resolvedOptions().timeZone), today);
  return { today, now: new Date(Date.parse(asked) + days * 86_400_000).toISOString(), asked };
}

const documents = { protocol: { value: 'FILE' }, formulary: { value: 'FILE' }, date: { value: 'YYYY-MM-DD' } } as const;

export const calculators: readonly Command[] = [
  calculator(
    'forecast',
    documents,
    `forecast --date 2026-03-15 <<< '{"born":"2026-01-20","arrived_on":"2026-03-01"}'`,
    (given) => {
      const protocol = readProtocol(given.text('protocol') ?? undefined);
      if (!protocol.ok) return protocol;
      const formulary = readFormulary(given.text('formulary') ?? undefined);
      if (!formulary.ok) return formulary;
      const context = { protocol: protocol.value, formulary: formulary.value, today: dayGiven(given) };
      return { ok: true, value: reading(ForecastInput, (input) => calculateForecast(input, context)) };
    },
  ),
  calculator(
    'dose',
    { formulary: documents.formulary, date: documents.date },
    `dose <<< '{"weight":"650 g","mg_per_kg":"5","strength_mg_per_ml":"50"}'`,
    (given) => {
      const formulary = readFormulary(given.text('formulary') ?? undefined);
      if (!formulary.ok) return formulary;
      const context = { formulary: formulary.value, ...momentGiven(given) };
      return { ok: true, value: reading(DoseInput, (input) => calculateDose(input, context)) };
    },
  ),
  calculator('chip', {}, `chip <<< '{"chip":"985 112 006 831 826"}'`, () => ({
    ok: true,
    value: reading(ChipInput, calculateChip),
  })),
  calculator('predict', {}, `predict <<< '{"sensitivity":0.93,"specificity":0.98,"prevalence":0.03}'`, () => ({
    ok: true,
    value: reading(PredictInput, calculatePrediction),
  })),
];
