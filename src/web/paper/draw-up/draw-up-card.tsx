import type { DrawUp } from '../../../log/prepare/draw-ups.js';
import { drawUpCard, type HowMuch } from '../../../papers/draw-up/card.js';
import { labelSizes } from '../../../papers/draw-up/label.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { AmountInWords } from '../../parts/fields/amount-in-words.js';
import { Figure } from '../../parts/figure.js';
import { kept } from '../../parts/kept.js';
import { GoButton } from '../../parts/links.js';
import { OtherStrength } from '../../parts/other-strength.js';
import { Page } from '../../parts/page.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { Notice } from '../../parts/state.js';
import { useShelter } from '../../store/here.js';
import { BigBarrel } from './big-barrel.js';
import { BodyMap } from './body-map.js';
import { labelsPath, sheetPath } from './links.js';
import '../../style/draw-up.css';

/** One draw-up on the screen and for the printer. */
export function DrawUpCard({ from, drawUp, at }: { from: string; drawUp: DrawUp; at: string }) {
  const card = drawUpCard(useShelter(), drawUp, at);
  const { collar, photo } = drawUp.animal.marks;
  return (
    <Page
      title={say('drawup.card.title', { name: card.name })}
      beside={card.what}
      acts={
        <>
          <GoButton to={sheetPath(from)}>{say('drawup.sheet.back')}</GoButton>
          {card.stops.length > 0
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
          <CatFace name={card.name} collar={collar} photo={photo} size={72} />
          <div>
            <b>{card.name}</b>
            <p>{card.place}</p>
            <p className="small">{card.marks}</p>
          </div>
        </div>
        {card.stops.map(({ code, name, why }) => (
          <Notice key={code} tone="stop">
            <b>{name}</b> {why}
          </Notice>
        ))}
        {card.amount === null ? null : card.amount.is === 'in-words' ? (
          <AmountInWords words={card.amount.words} />
        ) : (
          <Amount much={card.amount} drawUp={drawUp} />
        )}
        <div className="draw-where">
          {card.site === null ? null : <BodyMap site={card.site} />}
          <div className="stack tight">
            <p>
              <b>{kept(card.product)}</b>
            </p>
            <p>{card.route}</p>
            {card.needle === '' ? null : <p>{card.needle}</p>}
            <p>{card.lot}</p>
            <p className="small soft">{card.made}</p>
          </div>
        </div>
        <ul className="plain stack tight">
          {[...card.notes, ...card.care.map(kept)].map((note) => (
            <li key={note} className="note-line">
              <span aria-hidden="true">△ </span>
              {note}
            </li>
          ))}
        </ul>
        <p className="small">{say('drawup.veterinarian')}</p>
      </div>
    </Page>
  );
}

function Amount({ much, drawUp: { dose, syringe } }: { much: HowMuch; drawUp: DrawUp }) {
  const { course, volume, drawn, comesTo, exact } = much;
  return (
    <div className="stack tight">
      {course === '' ? null : (
        <p>
          <b>{course}</b>
        </p>
      )}
      <p className="draw-figure">{volume.is === 'pieces' ? volume.text : <Figure text={volume.text} big />}</p>
      {drawn === null ? null : (
        <>
          <p>{drawn.mark}</p>
          <OtherStrength dose={dose} />
          {drawn.places === '' ? null : (
            <p>
              <b>{drawn.places}</b>
            </p>
          )}
          {drawn.barrel === null || syringe === null ? null : (
            <BigBarrel barrel={drawn.barrel} syringe={syringe} volume_ul={drawn.volume_ul} mark={drawn.scaleMark} />
          )}
        </>
      )}
      <p>{comesTo}</p>
      {exact === '' ? null : (
        <details className="small soft no-print">
          <summary>{say('drawup.how')}</summary>
          <p>{exact}</p>
        </details>
      )}
    </div>
  );
}
