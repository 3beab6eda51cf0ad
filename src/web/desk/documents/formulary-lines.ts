import type { FormularyDocument, Product } from '../../../core/dosing/formulary.js';
import { spanSaid } from '../../../core/protocol/document/spans.js';
import { writeVolume } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { conditionText } from './condition-text.js';
import type { SourcedValue } from './sourced.js';

/** The parts of a formulary that have a source of their own, as lines to be read before signing. */
type Grounds = Pick<SourcedValue, 'source' | 'standing'>;

const line = (what: string, value: string, { source, standing }: Grounds, note = ''): SourcedValue => ({
  what,
  value,
  source,
  standing,
  note,
});

const parts = (...said: readonly string[]): string => said.filter((one) => one !== '').join('; ');

export function productLines(product: Product): SourcedValue[] {
  const { course, perDay, perSite, makeUp } = product;
  return [
    ...(course === null ? [] : [line(say('desk.doc.course'), courseWords(course), course)]),
    ...(perDay === null
      ? []
      : [
          line(
            say('desk.doc.per-day'),
            parts(
              perDay.doses === null ? '' : say('desk.doc.per-day.doses', { n: perDay.doses }),
              perDay.mg_per_kg === null ? '' : say('desk.doc.per-day.mg', { mg: perDay.mg_per_kg }),
              perDay.daysInARow === null ? '' : say('desk.doc.per-day.days', { n: perDay.daysInARow }),
            ),
            perDay,
          ),
        ]),
    ...(perSite === null
      ? []
      : [
          line(
            say('desk.doc.per-site'),
            parts(
              perSite.most_ml_per_kg === null ? '' : say('desk.doc.ml-per-kg', { volume: perSite.most_ml_per_kg }),
              perSite.most_ml === null ? '' : say('desk.doc.dose.ml', { volume: perSite.most_ml }),
              say('desk.doc.sites', { n: perSite.sites }),
            ),
            perSite,
          ),
        ]),
    ...(makeUp === null
      ? []
      : [
          line(
            say('desk.doc.make-up'),
            say('desk.doc.make-up-of', {
              diluent: makeUp.diluent,
              choices: { list: makeUp.choices.map(makeUpWords) },
              hours: makeUp.goodForHours,
            }),
            makeUp,
            makeUp.keep,
          ),
        ]),
    ...(product.claims === null ? [] : [line(say('desk.doc.claims'), product.claims.of.join(', '), product.claims)]),
    ...product.conditions.map((one) => line(say('desk.doc.conditions'), conditionText(one), one)),
    ...product.dilutions.map((recipe) =>
      line(
        say('desk.doc.dilution'),
        say('desk.doc.dilution-of', {
          stock: recipe.stock_ml,
          amount: recipe.diluent_ml,
          diluent: recipe.diluent,
          mg: recipe.gives_mg_per_ml,
          hours: recipe.goodForHours,
        }),
        recipe,
        recipe.words,
      ),
    ),
  ];
}

function courseWords(course: NonNullable<Product['course']>): string {
  return parts(
    say('desk.doc.course-of', { n: course.doses, hours: course.everyHours }),
    course.mostDoses === null ? '' : say('desk.doc.course.most', { n: course.mostDoses }),
    course.stretches === 1 ? '' : say('desk.doc.course.again', { n: course.stretches, rest: course.restDays }),
  );
}

const makeUpWords = ({ diluent_ml, mg_per_ml }: NonNullable<Product['makeUp']>['choices'][number]): string =>
  diluent_ml === null
    ? say('desk.doc.make-up-label', { mg: mg_per_ml })
    : say('desk.doc.make-up-choice', { volume: diluent_ml, mg: mg_per_ml });

/** What holds for every product: measuring, blood, places, spacing, never, mixtures. */
export function measuringLines(formulary: FormularyDocument): SourcedValue[] {
  const { instrument, blood, marksInBand: marks } = formulary;
  return [
    ...(instrument === null ? [] : [line(say('desk.doc.instrument'), instrumentWords(instrument), instrument)]),
    ...(blood === null
      ? []
      : [
          line(
            say('desk.doc.blood'),
            parts(
              say('desk.doc.blood.holds', { volume: blood.ul_per_g, from: blood.ul_per_g_from, to: blood.ul_per_g_to }),
              ...blood.limits.map((limit) => say('desk.doc.blood.limit', { percent: limit.percent, days: limit.days })),
              say('desk.doc.blood.ill', { percent: blood.lessWhenIllPercent }),
              say('desk.doc.blood.slow', { percent: blood.slowBelowPcv }),
            ),
            blood,
          ),
        ]),
    ...(marks === null
      ? []
      : [
          line(
            say('desk.doc.marks-in-band'),
            say('desk.doc.marks-in-band-of', {
              over: marks.over,
              under: marks.under,
              what: say(`desk.doc.severity.${marks.severity}`),
            }),
            marks,
          ),
        ]),
    ...formulary.routeLimits.map((limit) =>
      line(
        say('desk.doc.route-limit', { route: limit.route }),
        parts(
          say('desk.doc.route-limit-of', { good: limit.good_ml_per_kg, most: limit.most_ml_per_kg }),
          say('desk.doc.sites', { n: limit.sites }),
        ),
        limit,
        limit.note,
      ),
    ),
    ...formulary.spacings.map((spacing) =>
      line(
        say('desk.doc.spacing'),
        say('desk.doc.spacing-of', {
          ingredients: { list: spacing.ingredients },
          days: spacing.days,
          routes: spacing.routes.length === 0 ? '' : ` (${spacing.routes.join(', ')})`,
        }),
        spacing,
        spacing.why,
      ),
    ),
    ...formulary.notThisWay.map((rule) =>
      line(
        say(`desk.doc.not-this-way.${rule.severity}`),
        parts(
          rule.ingredient,
          rule.routes.join(', '),
          rule.underAge === null ? '' : say('desk.doc.under-age', { age: spanSaid(rule.underAge) }),
          rule.over_mg_per_ml === null ? '' : say('desk.doc.over-strength', { mg: rule.over_mg_per_ml }),
        ),
        rule,
        rule.why,
      ),
    ),
    ...formulary.mixes.map((mix) =>
      line(
        mix.name,
        say('desk.doc.mix-of', { stock: mix.stock, volume: mix.stock_ml, all: mix.finished_ml, diluent: mix.diluent }),
        mix,
        mix.cautions.join(' '),
      ),
    ),
  ];
}

function instrumentWords({ rows, needle_ul }: NonNullable<FormularyDocument['instrument']>): string {
  const told = rows.map((row) =>
    say('desk.doc.instrument-row', {
      from: writeVolume(row.from_ul),
      half: row.fromHalfPercent,
      capacity: row.ofCapacityPercent,
      volume: row.ofVolumePercent,
      dead: writeVolume(row.deadSpace_ul),
    }),
  );
  return parts(...told, say('desk.doc.instrument-needle', { volume: writeVolume(needle_ul) }));
}
