import { dayOfInstant } from '../../../core/calendar.js';
import { exactly } from '../../../core/quantity/exact.js';
import { writeNumber, writePerKg, writeVolume } from '../../../core/quantity/write.js';
import type { DrawUp } from '../../../log/views/round/draw-ups.js';
import { careOf } from '../../../told/care.js';
import { marksLine, nameOf, placeSaid } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { AmountInWords } from '../../parts/fields/amount-in-words.js';
import { Figure } from '../../parts/figure.js';
import { kept } from '../../parts/kept.js';
import { GoButton } from '../../parts/links.js';
import { OtherStrength } from '../../parts/other-strength.js';
import { Page } from '../../parts/page.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { Sentence } from '../../parts/sentence.js';
import { Notice } from '../../parts/state.js';
import { useShelter } from '../../store/here.js';
import { BigBarrel } from './big-barrel.js';
import { BodyMap } from './body-map.js';
import { labelsPath, sheetPath } from './links.js';
import { massText } from './mass-text.js';
import { labelSizes } from './paths.js';
import '../../style/draw-up.css';

/** One draw-up as large as it is important: how much, to which mark, where it goes, and what to mind. */
export function DrawUpCard({ from, drawUp, at }: { from: string; drawUp: DrawUp; at: string }) {
  const shelter = useShelter();
  const { animal, product, dose, name } = drawUp;
  const stops = dose.gates.filter((gate) => gate.severity === 'stop');
  const notes = dose.gates.filter((gate) => gate.severity !== 'stop');
  const care = careOf(product, animal, dose.grams, dayOfInstant(at, shelter.zone));
  return (
    <Page
      title={say('drawup.card.title', { name: nameOf(animal) })}
      beside={name}
      acts={
        <>
          <GoButton to={sheetPath(from)}>{say('drawup.sheet.back')}</GoButton>
          {stops.length > 0
            ? null
            : labelSizes.map((size) => (
                <GoButton key={size} to={labelsPath(from, size, drawUp.key)}>
                  {say('drawup.label.print', { size: say(`drawup.label.size.${size}`) })}
                </GoButton>
              ))}
          <Act onAct={() => window.print()}>{say('parts.print')}</Act>
        </>
      }
    >
      <div className="draw-card">
        <div className="row">
          <CatFace name={nameOf(animal)} collar={animal.marks.collar} photo={animal.marks.photo} size={72} />
          <div>
            <b>{nameOf(animal)}</b>
            <p>{say(placeSaid(shelter, animal.section, animal.kennel))}</p>
            <p className="small">{marksLine(animal)}</p>
          </div>
        </div>
        {stops.map((gate) => (
          <Notice key={gate.code} tone="stop">
            <b>{say(`gate.${gate.code}`)}.</b> <Sentence what={gate.why} />
          </Notice>
        ))}
        {dose.inWords !== null ? (
          <AmountInWords words={dose.inWords} />
        ) : stops.length > 0 ? null : (
          <HowMuch drawUp={drawUp} />
        )}
        <div className="draw-where">
          {product.siteCode === null ? null : <BodyMap site={product.siteCode} />}
          <div className="stack tight">
            <p>
              <b>{kept(product.name)}</b>
            </p>
            <p>
              {product.route}
              {product.site === '' ? '' : `, ${product.site}`}
            </p>
            {product.needle === '' ? null : <p>{say('drawup.needle', { needle: product.needle })}</p>}
            <p>
              {drawUp.lot === null
                ? say('drawup.no-lot')
                : say('drawup.lot', { lot: drawUp.lot.lotText, expires: drawUp.lot.expires ?? 'none' })}
            </p>
            <p className="small soft">{say('drawup.worked-out', { at: { instant: at } })}</p>
          </div>
        </div>
        <ul className="plain stack tight">
          {notes.map((gate) => (
            <li key={gate.code} className="note-line">
              <span aria-hidden="true">△ </span>
              <Sentence what={gate.why} />
            </li>
          ))}
          {[...care.hand, ...care.other].map((caution) => (
            <li key={caution} className="note-line">
              <span aria-hidden="true">△ </span>
              {kept(caution)}
            </li>
          ))}
        </ul>
        <p className="small">{say('drawup.veterinarian')}</p>
      </div>
    </Page>
  );
}

function HowMuch({ drawUp: { dose, syringe, course } }: { drawUp: DrawUp }) {
  const { drawn, measuring } = dose;
  return (
    <div className="stack tight">
      {course === null || course.of === 1 ? null : (
        <p>
          <b>{say('drawup.course', { number: course.number, of: course.of })}</b>
        </p>
      )}
      {drawn === null ? (
        <p className="draw-figure">
          {dose.pieces === null ? (
            <Figure text={writeVolume(dose.exact_ul ?? 0)} big />
          ) : (
            <Sentence what={dose.pieces} />
          )}
        </p>
      ) : (
        <>
          <p className="draw-figure">
            <Figure text={writeVolume(drawn.volume_ul)} big />
          </p>
          <p>{say('round.give.mark', { mark: drawn.mark, syringe: drawn.syringeName })}</p>
          <OtherStrength dose={dose} />
          {dose.places === 1 || dose.total_ul === null ? null : (
            <p>
              <b>{say('drawup.places', { places: dose.places, total: { microlitres: dose.total_ul } })}</b>
            </p>
          )}
          {syringe === null ? null : <BigBarrel syringe={syringe} volume_ul={drawn.volume_ul} mark={drawn.mark} />}
        </>
      )}
      <p>
        {[
          massText(dose),
          dose.drawnMgPerKg === null ? '' : writePerKg(dose.drawnMgPerKg),
          dose.grams === null ? '' : say('drawup.for-weight', { weight: { grams: dose.grams } }),
        ]
          .filter((part) => part !== '')
          .join(' · ')}
      </p>
      {measuring === null || dose.unrounded_ul === null ? null : (
        <details className="small soft no-print">
          <summary>{say('drawup.how')}</summary>
          <p>
            {say('drawup.exact', {
              exact: `${writeNumber(exactly(dose.unrounded_ul).div(1000), 5)}\u00a0mL`,
              percent: writeNumber(measuring.tolerancePercent, 0),
              combined: writeNumber(measuring.combinedPercent, 0),
            })}
          </p>
        </details>
      )}
    </div>
  );
}
