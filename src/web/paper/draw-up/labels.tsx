import { useEffect } from 'react';
import { createPortal } from 'react-dom';
import type { DrawUp } from '../../../log/prepare/draw-ups.js';
import { type Label, type LabelSize, labelSizes, labelsOf, sizeOf } from '../../../papers/draw-up/label.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { GoButton } from '../../parts/links.js';
import { Page } from '../../parts/page.js';
import { Notice } from '../../parts/state.js';
import { useShelter } from '../../store/here.js';
import { labelsPath, sheetPath } from './links.js';
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
  const ready = labelsOf(drawUps, at, useShelter());
  usePaper(size);
  const labels = ready.map((one) => <OneLabel key={one.key} label={one} size={size} />);
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

function OneLabel({ label, size }: { label: Label; size: LabelSize }) {
  const { width_mm, height_mm } = sizeOf(size);
  const { amount } = label;
  return (
    <section className="syringe-label" style={{ width: `${width_mm}mm`, height: `${height_mm}mm` }}>
      <div className="label-top">
        <b>{label.name}</b>
        <span>{label.place}</span>
      </div>
      <div className="label-product">{label.product}</div>
      <div className="label-amount">
        <b className={amount.inWords ? 'in-words' : 'figure'}>{amount.text}</b>
        {amount.inWords ? <span>{say('drawup.in-words.label')}</span> : null}
        <span>{label.beside}</span>
      </div>
      <div className="label-where">{label.where}</div>
      <div className="label-foot">
        <span>{label.foot}</span>
        <span>{label.lot}</span>
        {label.demo === '' ? null : <span>{label.demo}</span>}
      </div>
    </section>
  );
}
