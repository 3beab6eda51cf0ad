import type { ReactNode } from 'react';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product, Syringe } from '../../../core/dosing/formulary.js';
import type { Gate } from '../../../core/dosing/gate.js';
import { writePerKg, writeVolume } from '../../../core/quantity/write.js';
import { passedSaid } from '../../../log/views/doses/passed.js';
import { personName, say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Barrel } from '../../parts/barrel.js';
import { AmountInWords } from '../../parts/fields/amount-in-words.js';
import { Figure } from '../../parts/figure.js';
import { kept } from '../../parts/kept.js';
import { OtherStrength } from '../../parts/other-strength.js';
import { Sentence } from '../../parts/sentence.js';
import { Pair } from '../around/bits.js';
import type { Passed } from './pass-gate.js';
import { StopLine } from './stop-line.js';

interface DoseCardProps {
  readonly title: string;
  readonly product: Product;
  readonly dose: Dose;
  readonly syringe: Syringe | null;
  readonly passed: readonly Passed[];
  /** What people should find out before they give it. */
  readonly asks: readonly string[];
  /** What is to be minded with this animal, other than what stands above the button. */
  readonly cautions: readonly string[];
  readonly onOtherSyringe: (() => void) | null;
  readonly onOtherProduct?: () => void;
  /** Stands above the amount: which dose of a course it is. */
  readonly above?: ReactNode;
  readonly children: ReactNode;
}

/** The amount as large as it is important, the barrel to scale, and every caution in words. */
export function DoseCard(props: DoseCardProps) {
  const { title, product, dose, syringe, passed, asks, cautions, onOtherSyringe, onOtherProduct, above, children } =
    props;
  const notes = dose.gates.filter((gate) => gate.severity !== 'stop' || passed.some((one) => one.gate === gate.code));
  const stops = dose.gates.filter((gate) => !notes.includes(gate));
  const hidden = stops.length > 0;
  return (
    <section className="step-card" aria-label={title}>
      <h2>{title}</h2>
      <p className="how">
        <b className="ink">{kept(product.name)}</b>
        {' · '}
        {product.route}
        {product.site === '' ? null : `, ${product.site}`}
      </p>
      {stops.map((gate) => (
        <StopLine key={gate.code} gate={gate} />
      ))}
      {above}
      {/* What a veterinarian ordered does not vanish behind a stop; a figure does. */}
      {dose.inWords !== null ? (
        <AmountInWords words={dose.inWords} />
      ) : hidden ? null : (
        <Amount dose={dose} syringe={syringe} />
      )}
      {children}
      <Pair>
        {hidden || onOtherSyringe === null ? null : (
          <Act size="mid" onAct={onOtherSyringe}>
            {say('round.give.other-syringe')}
          </Act>
        )}
        {onOtherProduct === undefined ? null : (
          <Act size="mid" onAct={onOtherProduct}>
            {say('round.give.other-product')}
          </Act>
        )}
      </Pair>
      {notes.map((gate) => (
        <GateNote key={gate.code} gate={gate} passed={passed.find((one) => one.gate === gate.code)} />
      ))}
      {[...asks, ...cautions].map((caution) => (
        <div key={caution} className="note-line">
          <span className="g" aria-hidden="true">
            △
          </span>
          <span>{kept(caution)}</span>
        </div>
      ))}
    </section>
  );
}

function Amount({ dose, syringe }: Pick<DoseCardProps, 'dose' | 'syringe'>) {
  return (
    <>
      <HowMuch dose={dose} syringe={syringe} />
      {dose.byOrder === null ? null : <p className="how">{say('round.give.by-order', { ordered: dose.byOrder })}</p>}
    </>
  );
}

function HowMuch({ dose, syringe }: Pick<DoseCardProps, 'dose' | 'syringe'>) {
  const { drawn } = dose;
  if (drawn !== null) {
    return (
      <>
        <Figure text={writeVolume(drawn.volume_ul)} big />
        <p>{say('round.give.mark', { mark: drawn.mark, syringe: kept(drawn.syringeName) })}</p>
        <OtherStrength dose={dose} />
        {syringe === null ? null : (
          <Barrel
            capacity_ul={syringe.capacity_ul}
            mark_ul={syringe.mark_ul}
            scale={syringe.scale}
            volume_ul={drawn.volume_ul}
          />
        )}
        {dose.places === 1 || dose.total_ul === null ? null : (
          <p>
            <b>{say('drawup.places', { places: dose.places, total: { microlitres: dose.total_ul } })}</b>
          </p>
        )}
        <p className="how">
          {dose.drawnMgPerKg === null ? null : `${writePerKg(dose.drawnMgPerKg)}. `}
          {dose.grams === null ? null : `${say('round.give.for-weight', { weight: { grams: dose.grams } })} `}
        </p>
      </>
    );
  }
  if (dose.pieces !== null) {
    return (
      <p className="figure big">
        <Sentence what={dose.pieces} />
      </p>
    );
  }
  return dose.exact_ul === null ? (
    <p>{say('round.give.no-amount')}</p>
  ) : (
    <Figure text={writeVolume(dose.exact_ul)} big />
  );
}

function GateNote({ gate, passed }: { gate: Gate; passed: Passed | undefined }) {
  return (
    <div className="note-line">
      <span className="g" aria-hidden="true">
        △
      </span>
      <span>
        <Sentence what={gate.why} />
        {passed === undefined
          ? null
          : ` ${say('round.gate.passed', { person: personName(passed.by), reason: passedSaid(passed) })}`}
      </span>
    </div>
  );
}
