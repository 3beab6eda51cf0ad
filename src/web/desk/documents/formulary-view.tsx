import { cautionText } from '../../../core/dosing/cautions.js';
import type { FormularyDocument, KitType, Product } from '../../../core/dosing/formulary.js';
import { writeLabelWeight } from '../../../core/dosing/label-weight.js';
import { spanSaid } from '../../../core/protocol/document/spans.js';
import { writePerGram, writeStrength, writeVolume } from '../../../core/quantity/write.js';
import { doseWords } from '../../../told/dose-words.js';
import { say } from '../../../words/say.js';
import { DataTable } from '../../parts/data-table.js';
import { Facts } from '../../parts/facts.js';
import { Part } from '../../parts/page.js';
import { productLines } from './formulary-lines.js';
import { MeasuringView } from './measuring-view.js';
import { SourcedLines, SourceList, SourceTitle } from './sourced.js';

export function FormularyView({ formulary }: { formulary: FormularyDocument }) {
  return (
    <>
      <Part title={say('desk.doc.products')}>
        {formulary.products.map((product) => (
          <ProductView key={product.id} product={product} formulary={formulary} />
        ))}
      </Part>
      <Part title={say('desk.doc.kits')}>
        {formulary.kits.map((kit) => (
          <KitView key={kit.id} kit={kit} formulary={formulary} />
        ))}
      </Part>
      <Part title={say('desk.doc.syringes')}>
        <DataTable
          caption={say('desk.doc.syringes')}
          rows={formulary.syringes}
          keyOf={(one) => one.id}
          columns={[
            { id: 'name', label: say('desk.doc.syringe'), names: true, cell: (one) => one.name },
            { id: 'whole', label: say('desk.doc.capacity'), num: true, cell: (one) => writeVolume(one.capacity_ul) },
            { id: 'mark', label: say('desk.doc.mark'), num: true, cell: (one) => writeVolume(one.mark_ul) },
            { id: 'scale', label: say('desk.doc.scale'), cell: (one) => one.scale },
            {
              id: 'source',
              label: say('desk.doc.source'),
              cell: (one) => <SourceTitle id={one.source} sources={formulary.sources} />,
            },
          ]}
        />
      </Part>
      <Part title={say('desk.doc.freshness')}>
        <ul>
          {formulary.weightFreshness.map((row) => (
            <li key={row.underAgeDays}>
              {say('desk.doc.fresh', { age: { ageDays: row.underAgeDays }, hours: row.hours })}
            </li>
          ))}
        </ul>
        <p className="small soft">
          <SourceTitle id={formulary.weightFreshnessSource} sources={formulary.sources} />
        </p>
      </Part>
      <Part title={say('desk.doc.orders')}>
        {formulary.standingOrders.length === 0 ? (
          <p className="soft">{say('desk.doc.no-orders')}</p>
        ) : (
          <ul>
            {formulary.standingOrders.map((order) => (
              <li key={`${order.product} ${order.allows}`}>
                {say('desk.doc.order', {
                  product: formulary.products.find((one) => one.id === order.product)?.name ?? order.product,
                  allows: say(`desk.doc.allows.${order.allows}`),
                  words: order.words,
                  by: order.by,
                  licence: order.licence,
                  until: { date: order.until },
                })}
              </li>
            ))}
          </ul>
        )}
      </Part>
      <MeasuringView formulary={formulary} />
      <Part title={say('desk.doc.sources')}>
        <SourceList sources={formulary.sources} />
      </Part>
    </>
  );
}

function ProductView({ product, formulary }: { product: Product; formulary: FormularyDocument }) {
  const strength = product.ingredients.map(({ name, counted, mg_per_ml, mg_per_g }) => {
    if (mg_per_ml !== null) return say('desk.doc.strength', { name, strength: writeStrength(mg_per_ml), counted });
    return mg_per_g === null ? name : say('desk.doc.strength', { name, strength: writePerGram(mg_per_g), counted });
  });
  const limits = [
    product.labelMinAge === null ? null : say('desk.doc.label-age', { age: spanSaid(product.labelMinAge) }),
    product.labelMinWeight === null
      ? null
      : say('desk.doc.label-weight', { weight: writeLabelWeight(product.labelMinWeight) }),
  ].filter((one) => one !== null);
  const facts = [
    { word: say('desk.doc.ingredients'), value: strength.join('; ') },
    { word: say('desk.doc.dose'), value: doseWords(product.dose) },
    { word: say('desk.doc.band'), value: product.band === null ? '' : say('desk.doc.band-of', product.band) },
    {
      word: say('desk.doc.rounding'),
      value: say('desk.doc.rounding-of', { way: product.rounding, percent: product.tolerancePercent }),
    },
    { word: say('desk.doc.route'), value: [product.route, product.site].filter((one) => one !== '').join(', ') },
    { word: say('desk.doc.label'), value: limits.join('; ') },
    {
      word: say('desk.doc.stop-above'),
      value:
        product.stopAbove_mg_per_kg === null ? '' : say('desk.doc.stop-above-of', { mg: product.stopAbove_mg_per_kg }),
    },
    { word: say('desk.doc.may-give'), value: product.mayGive.map((role) => say(`parts.role.${role}`)).join(', ') },
    { word: say('desk.doc.needle'), value: product.needle },
    { word: say('desk.doc.species'), value: product.species.map((one) => say(`desk.doc.species.${one}`)).join(', ') },
    {
      word: say('desk.doc.twins'),
      value: product.twins
        .map(
          (twin) =>
            `${say('desk.doc.twin', { mg: twin.mg_per_ml, what: twin.what })} (${say(`desk.standing.${twin.standing}`)})`,
        )
        .join('; '),
    },
    { word: say('desk.doc.from-memory'), value: product.fromMemory.join('; ') },
    { word: say('desk.doc.handling'), value: product.handling.join(' ') },
    { word: say('desk.doc.cautions'), value: product.cautions.map(cautionText).join(' ') },
    { word: say('desk.doc.note'), value: product.note },
  ];
  return (
    <section className="sheet stack tight keep" aria-label={product.name}>
      <div className="row spread base">
        <h3>{product.name}</h3>
        <span className="soft small">{`${product.form}${product.prescription ? `, ${say('desk.doc.prescription')}` : ''}${product.controlled ? `, ${say('desk.doc.controlled')}` : ''}`}</span>
      </div>
      <Facts facts={facts} />
      <SourcedLines lines={productLines(product)} sources={formulary.sources} />
      <p className="small">
        <SourceTitle id={product.source} sources={formulary.sources} />{' '}
        <span className="soft">{say(`desk.standing.${product.standing}`)}</span>
      </p>
    </section>
  );
}

function KitView({ kit, formulary }: { kit: KitType; formulary: FormularyDocument }) {
  const facts = [
    { word: say('desk.doc.warm'), value: say('desk.doc.minutes', { minutes: kit.warmMinutes }) },
    {
      word: say('desk.doc.drops'),
      value: say('desk.doc.drops-of', {
        sample: kit.sampleDrops,
        conjugate: kit.conjugateDrops,
        volume: writeVolume(kit.sample_ul),
      }),
    },
    {
      word: say('desk.doc.window'),
      value: say('desk.doc.window-of', { opens: secondsText(kit.readOpens_s), closes: secondsText(kit.readCloses_s) }),
    },
    { word: say('desk.doc.zones'), value: kit.zones.map((zone) => `${zone.name} (${zone.printed})`).join(', ') },
    { word: say('desk.doc.steps'), value: kit.steps.join(' ') },
    { word: say('desk.doc.note'), value: kit.note },
  ];
  return (
    <section className="sheet stack tight keep" aria-label={kit.name}>
      <h3>{kit.name}</h3>
      <Facts facts={facts} />
      <p className="small">
        <SourceTitle id={kit.source} sources={formulary.sources} />{' '}
        <span className="soft">{say(`desk.standing.${kit.standing}`)}</span>
      </p>
    </section>
  );
}

const secondsText = (seconds: number): string =>
  seconds % 60 === 0
    ? say('desk.doc.minutes', { minutes: seconds / 60 })
    : say('desk.doc.seconds', { minutes: Math.floor(seconds / 60), seconds: seconds % 60 });
