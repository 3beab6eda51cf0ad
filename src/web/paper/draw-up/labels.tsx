import { useEffect } from 'react';
import { createPortal } from 'react-dom';
import { writeVolume } from '../../../core/quantity/write.js';
import type { DrawUp } from '../../../log/views/round/draw-ups.js';
import { nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { GoButton } from '../../parts/links.js';
import { Page } from '../../parts/page.js';
import { Notice } from '../../parts/state.js';
import { useShelter } from '../../store/here.js';
import { labelsPath, sheetPath } from './links.js';
import { massOfOneDraw } from './mass-text.js';
import { type LabelSize, labelSizes, sizeOf } from './paths.js';
import '../../style/draw-up.css';

interface LabelsProps {
  readonly from: string;
  readonly drawUps: readonly DrawUp[];
  readonly size: LabelSize;
  readonly at: string;
  /** Key of the one draw-up, or empty for all. */
  readonly only: string;
}

/** Labels for syringes: the page is exactly the label, one label a page, nothing of the screen around it. */
export function Labels({ from, drawUps, size, at, only }: LabelsProps) {
  const ready = drawUps.filter((one) => !one.dose.stopped);
  usePaper(size);
  const labels = ready.map((one) => <Label key={one.key} one={one} at={at} size={size} />);
  return (
    <Page
      title={say('drawup.labels.title')}
      beside={say(`drawup.label.size.${size}`)}
      lead={say('drawup.labels.lead', { count: ready.length, stopped: drawUps.length - ready.length })}
      acts={
        <>
          <GoButton to={sheetPath(from)}>{say('drawup.sheet.back')}</GoButton>
          {labelSizes
            .filter((other) => other !== size)
            .map((other) => (
              <GoButton key={other} to={labelsPath(from, other, only)}>
                {say(`drawup.label.size.${other}`)}
              </GoButton>
            ))}
          <Act main disabled={ready.length === 0} onAct={() => window.print()}>
            {say('parts.print')}
          </Act>
        </>
      }
    >
      <Notice tone="attention">{say('drawup.labels.how')}</Notice>
      <div className="label-preview">{labels}</div>
      {createPortal(
        <div className="labels-out" aria-hidden="true">
          {labels}
        </div>,
        document.body,
      )}
    </Page>
  );
}

/**
 * The size of the paper while this screen is open. An orientation word beside the size would make printers fall back to
 * a full sheet, so there is none.
 */
function usePaper(size: LabelSize): void {
  useEffect(() => {
    const { width_mm, height_mm } = sizeOf(size);
    const style = document.createElement('style');
    style.textContent = `@page { size: ${width_mm}mm ${height_mm}mm; margin: 0; @bottom-right { content: none } }`;
    document.head.append(style);
    document.documentElement.classList.add('prints-labels');
    return () => {
      style.remove();
      document.documentElement.classList.remove('prints-labels');
    };
  }, [size]);
}

/** More signs than this do not fit on a label; part of an order is worse than none. */
const mostSigns = 70;
const inWordsOnLabel = (words: string): string =>
  words.length > mostSigns ? say('drawup.in-words.long') : say('drawup.in-words', { words });

function Label({ one, at, size }: { one: DrawUp; at: string; size: LabelSize }) {
  const { demo } = useShelter();
  const { animal, product, dose, lot, course } = one;
  const { width_mm, height_mm } = sizeOf(size);
  const { drawn } = dose;
  const amount =
    dose.inWords !== null
      ? inWordsOnLabel(dose.inWords)
      : drawn === null
        ? dose.pieces === null
          ? writeVolume(dose.exact_ul ?? 0)
          : say(dose.pieces)
        : writeVolume(drawn.volume_ul);
  return (
    <section className="syringe-label" style={{ width: `${width_mm}mm`, height: `${height_mm}mm` }}>
      <div className="label-top">
        <b>{nameOf(animal)}</b>
        <span>{[one.section?.name ?? '', animal.kennel].filter((part) => part !== '').join(' ')}</span>
      </div>
      <div className="label-product">
        {product.name}
        {course === null || course.of === 1
          ? ''
          : ` · ${say('drawup.course', { number: course.number, of: course.of })}`}
      </div>
      <div className="label-amount">
        <b className={dose.inWords === null ? 'figure' : 'in-words'}>{amount}</b>
        {dose.inWords === null ? null : <span>{say('drawup.in-words.label')}</span>}
        <span>
          {drawn === null || drawn.scale === 'mL' ? '' : `${drawn.mark} ${drawn.scale}`}
          {` ${massOfOneDraw(dose)}`}
        </span>
      </div>
      <div className="label-where">
        {product.route}
        {product.siteCode === null || product.siteCode === 'mouth' ? '' : `, ${say(`drawup.site.${product.siteCode}`)}`}
      </div>
      <div className="label-foot">
        <span>
          {say('drawup.label.foot', { at: { instant: at }, weight: dose.grams === null ? '' : { grams: dose.grams } })}
        </span>
        <span>{lot === null ? '' : lot.lotText}</span>
        {demo ? <span>{say('drawup.label.demo')}</span> : null}
      </div>
    </section>
  );
}
