import { useState } from 'react';
import type { Animal } from '../../../core/animal/animal.js';
import { holdsBack } from '../../../core/bedside/gate-ways.js';
import type { RecentDose } from '../../../core/dosing/dose-question.js';
import type { Product } from '../../../core/dosing/formulary.js';
import type { LotId, ProductId, ScheduleId, SyringeId } from '../../../core/ids.js';
import { said } from '../../../core/said.js';
import { lotChoices } from '../../../log/bedside/lot-choices.js';
import { productOf, productsOf } from '../../../log/bedside/next-step.js';
import { orderOfLine } from '../../../log/bedside/order-of-line.js';
import { keyOfGiving, lotsOfRound } from '../../../log/prepare/lots-of-labels.js';
import { doseFor, syringesAtHand } from '../../../log/views/doses/dose.js';
import { dosesGiven, openedFor } from '../../../log/views/doses/opened.js';
import { courseOfLine } from '../../../log/views/doses/ordered.js';
import { weighingForDose } from '../../../log/views/doses/weight-for-dose.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { whyNoDocuments } from '../../../log/views/shelter.js';
import { dueIn } from '../../../log/views/world.js';
import { careOf } from '../../../told/care.js';
import { say } from '../../../words/say.js';
import { Act, BigButton } from '../../parts/act.js';
import { Notice, State } from '../../parts/state.js';
import { usePerson } from '../../store/here.js';
import { Acts, Pair, Trouble } from '../around/bits.js';
import { BoxLine, boxesOfSyringe, useSyringeBox } from '../around/box-line.js';
import { LotLine } from '../around/lot-line.js';
import { NotGivenSheet } from '../around/not-given.js';
import { OrderNote } from '../around/order-note.js';
import { useRound } from '../around/use-round.js';
import { DifferentSheet } from './different.js';
import { DoseCard } from './dose-card.js';
import { DoseInSight, ForTheHand } from './dose-in-sight.js';
import { DrawAgain, inTheSyringe, useDrawnUp } from './drawn-up.js';
import { FirstToExpire } from './first-to-expire.js';
import { InHand, mustReadLabel, useHand } from './in-hand.js';
import { OrderInWordsSheet } from './order-in-words.js';
import { type Passed, PassSheet, stillStopped } from './pass-gate.js';
import { ProductSheet } from './product-sheet.js';
import { SecondAlone } from './second-alone.js';
import { type OnScreen, useGive } from './use-give.js';

type Open = 'none' | 'not-given' | 'different' | 'in-words' | 'pass' | 'product';

/** A treatment: what, where, how much, drawn to scale, and everything that stands in its way. */
export function GiveStep({ stop, line, onBack }: { stop: AnimalStop; line: RoundLine; onBack?: () => void }) {
  const { animal } = stop;
  const { world, today } = useRound();
  const item = dueIn(world, animal, today).find((one) => one.schedule === line.schedule);
  const products = productsOf(world, line, item);
  const [chosen, setChosen] = useState<ProductId | null>(null);
  const [leaving, setLeaving] = useState(false);
  const product = products.find((one) => one.id === chosen) ?? productOf(world, line, item);
  if (product === null) {
    return (
      <>
        <div className="round-body">
          <section className="step-card">
            <h2>{line.name}</h2>
            <Notice tone="stop">{say('round.give.no-product', { what: line.name })}</Notice>
          </section>
        </div>
        <Acts>
          <BigButton onAct={onBack ?? (() => setLeaving(true))}>
            {say(onBack === undefined ? 'round.not-given.open' : 'round.as-needed.back')}
          </BigButton>
        </Acts>
        {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
      </>
    );
  }
  const asks = item?.asks ?? [];
  return (
    <Give
      key={product.id}
      stop={stop}
      line={line}
      product={product}
      products={products}
      asks={asks.map((ask) => say(ask))}
      onProduct={setChosen}
      onBack={onBack ?? null}
    />
  );
}

interface GiveProps {
  readonly stop: AnimalStop;
  readonly line: RoundLine;
  readonly product: Product;
  readonly products: readonly Product[];
  readonly asks: readonly string[];
  readonly onProduct: (product: ProductId) => void;
  /** Of an order as needed: it is not needed after all, and nothing is written down. */
  readonly onBack: (() => void) | null;
}

function Give({ stop, line, product, products, asks, onProduct, onBack }: GiveProps) {
  const { animal } = stop;
  const { world, shelter, now, today, round } = useRound();
  const [open, setOpen] = useState<Open>('none');
  const [lotId, setLotId] = useState<LotId | null>(null);
  const [lotText, setLotText] = useState('');
  /** Something else is in the hand, as the person at the card says: what a second person came to was the figure before. */
  const byHand = (): void => {
    drawnUp.byHand();
    setPassed((before) => before.filter(({ how }) => how !== 'second-person'));
  };
  const chooseLot = (id: LotId | null, text: string): void => {
    byHand();
    setLotId(id);
    setLotText(text);
  };
  const [passed, setPassed] = useState<readonly Passed[]>([]);
  const [without, setWithout] = useState<readonly SyringeId[]>([]);
  const [alone, setAlone] = useState(false);
  const give = useGive(stop, line);
  const ordered = orderOfLine(animal, shelter, line.schedule, now);
  const lots = lotChoices(world, (of) => of.is === 'product' && of.product === product.id, today);
  const onLabel = lotsOfRound(world, round, today).get(keyOfGiving(animal, line.schedule));
  const labelled = lots.find(
    (one) => one.lot.id === onLabel?.id && one.fault !== 'expired' && one.fault !== 'withdrawn',
  );
  const lot = lotText !== '' ? null : (lots.find((one) => one.lot.id === lotId) ?? labelled ?? lots[0] ?? null);
  const { formulary } = shelter;
  const person = usePerson();
  const [hand, onHand] = useHand(product, lot?.lot.lotText ?? lotText);
  const dose = doseFor(shelter, animal, product, now, today, {
    schedule: line.schedule,
    ...hand,
    syringes: syringesAtHand(shelter).filter((id) => !without.includes(id)),
    lot: lot?.lot ?? null,
    opened: openedFor(world, animal.id),
    recent: dosesGiven(world, animal.id),
    ...(person === null ? {} : { role: person.role }),
  });
  const inUse = dose?.drawn?.syringe ?? null;
  const from = useSyringeBox(inUse ?? '', boxesOfSyringe(inUse));
  const stopped = dose === null || stillStopped(dose, passed);
  const card = dose === null || stopped ? null : inTheSyringe(product, dose, lot?.lot.lotText ?? lotText);
  const drawnUp = useDrawnUp(round, keyOfGiving(animal, line.schedule), card);
  if (formulary === null || dose === null)
    return <Notice tone="stop">{say(whyNoDocuments(shelter) ?? said('log.nothing-signed'))}</Notice>;
  const held = holdsBack(dose.gates, passed);
  const wanted = dose.gates.filter((gate) => gate.severity === 'second-person');
  const second = wanted.some((gate) => !passed.some((one) => one.gate === gate.code));
  const unlisted = lot === null;
  const care = careOf(product, animal, dose.grams, today);
  const unread = mustReadLabel(product, hand, unlisted);
  const syringe = formulary.syringes.find((one) => one.id === dose.drawn?.syringe) ?? null;
  const what: OnScreen = {
    product,
    dose,
    lot: lot?.lot.id ?? null,
    lotText,
    syringeLot: from.box?.lot.id ?? null,
    passed,
    weighing: weighingForDose(animal),
    hand,
  };
  if (alone) {
    return (
      <div className="round-body">
        <SecondAlone
          name={animal.name}
          product={product}
          dose={dose}
          syringe={syringe}
          onAgreed={(by, agreed) => {
            const how = 'second-person' as const;
            setPassed([...passed, ...wanted.map((gate) => ({ gate: gate.code, how, agreed, by }))]);
            setAlone(false);
          }}
          onBack={() => setAlone(false)}
        />
      </div>
    );
  }
  return (
    <>
      <div className="round-body">
        <DoseCard
          title={line.name}
          product={product}
          dose={dose}
          syringe={syringe}
          passed={passed}
          asks={ordered === null ? asks : []}
          cautions={stopped ? [...care.hand, ...care.other] : care.other}
          above={
            <CourseLine
              animal={animal}
              schedule={line.schedule}
              product={product}
              given={dosesGiven(world, animal.id)}
              now={now}
            />
          }
          onOtherSyringe={
            syringe === null
              ? null
              : () => {
                  byHand();
                  setWithout([...without, syringe.id]);
                }
          }
          {...(products.length > 1 ? { onOtherProduct: () => setOpen('product') } : {})}
        >
          {ordered === null ? null : <OrderNote of={ordered} />}
          <LotLine
            lots={lots}
            chosen={lot}
            text={lotText}
            onChoose={(id) => chooseLot(id, '')}
            onText={(text) => chooseLot(lotId, text)}
          />
          {lot === null || lot !== labelled ? null : <FirstToExpire lot={lot.lot} onTake={(id) => chooseLot(id, '')} />}
          {labelled === undefined || lot === labelled ? null : (
            <Notice tone="attention">
              {say('round.lot.label-says', { animal: animal.name || animal.label, lot: labelled.lot.lotText })}{' '}
              <Act size="mid" onAct={() => chooseLot(labelled.lot.id, '')}>
                {say('round.lot.it-is-labelled', { lot: labelled.lot.lotText })}
              </Act>
            </Notice>
          )}
          {stopped ? null : <BoxLine {...from} />}
          <InHand
            product={product}
            dose={dose}
            hand={hand}
            onHand={(next) => {
              byHand();
              onHand(next);
            }}
            unlisted={unlisted}
          />
        </DoseCard>
        {wanted.length > 0 && !second ? <State tone="done">{say('drawup.second.done')}</State> : null}
      </div>
      <Acts>
        <Trouble state={give.state} />
        {stopped ? null : <ForTheHand cautions={care.hand} />}
        <DoseInSight product={product} dose={dose} passed={passed} lot={lot?.lot.lotText ?? lotText} />
        {stopped ? (
          <Act stop size="big" onAct={() => setOpen('pass')}>
            {say('round.gate.open')}
          </Act>
        ) : drawnUp.changes.length > 0 ? (
          <DrawAgain
            changes={drawnUp.changes}
            amount={card?.amount ?? ''}
            onDrawn={() => {
              // What a second person agreed to was the figure before.
              setPassed(passed.filter(({ how }) => how !== 'second-person'));
              drawnUp.confirm();
            }}
          />
        ) : second ? (
          <BigButton why={unread ? say('round.why.label') : null} onAct={() => setAlone(true)}>
            {say('drawup.second.open')}
          </BigButton>
        ) : dose.inWords !== null ? (
          <BigButton why={unread ? say('round.why.label') : null} onAct={() => setOpen('in-words')}>
            {say('round.in-words.open')}
          </BigButton>
        ) : (
          <BigButton why={unread ? say('round.why.label') : null} onAct={() => give.asDrawn(what)}>
            {say(dose.drawn !== null ? 'round.give.as-drawn' : 'round.give.as-shown')}
          </BigButton>
        )}
        <Pair>
          <Act size="mid" onAct={onBack ?? (() => setOpen('not-given'))}>
            {say(onBack === null ? 'round.not-given.open' : 'round.as-needed.back')}
          </Act>
          <Act
            size="mid"
            why={unread ? say('round.why.label') : null}
            onAct={() => setOpen(dose.inWords === null ? 'different' : 'in-words')}
          >
            {say('round.give.different')}
          </Act>
        </Pair>
      </Acts>
      {open === 'not-given' ? <NotGivenSheet stop={stop} line={line} onClose={() => setOpen('none')} /> : null}
      {open === 'different' ? (
        <DifferentSheet
          product={product}
          dose={dose}
          syringe={syringe}
          stopped={stopped}
          held={held}
          state={give.state}
          onHeld={() => setOpen('pass')}
          onClose={() => setOpen('none')}
          onGiven={(given) => give.other(what, given)}
        />
      ) : null}
      {open === 'in-words' && dose.inWords !== null ? (
        <OrderInWordsSheet
          product={product}
          dose={dose}
          words={dose.inWords}
          held={held}
          state={give.state}
          onHeld={() => setOpen('pass')}
          onClose={() => setOpen('none')}
          onGiven={(given) => give.other(what, given)}
        />
      ) : null}
      {open === 'pass' ? (
        <PassSheet
          product={product.id}
          dose={dose}
          passed={passed}
          onPassed={setPassed}
          onClose={() => setOpen('none')}
          animal={animal}
          byOrder={ordered !== null}
        />
      ) : null}
      {open === 'product' ? (
        <ProductSheet
          products={products}
          value={product.id}
          onChoose={(id) => {
            setOpen('none');
            drawnUp.byHand();
            onProduct(id);
          }}
          onClose={() => setOpen('none')}
        />
      ) : null}
    </>
  );
}

interface CourseLineProps {
  readonly animal: Animal;
  readonly schedule: ScheduleId;
  readonly product: Product;
  readonly given: readonly RecentDose[];
  readonly now: string;
}

/** Which dose of its course this is: the second day is the one most easily lost. */
function CourseLine({ animal, schedule, product, given, now }: CourseLineProps) {
  const own = given.filter((one) => one.product === product.id).map((one) => one.at);
  const course = courseOfLine(animal, schedule, product, own, now);
  if (course === null) return null;
  const { number, of, lastAt } = course;
  if (of === 1) return null;
  return (
    <State tone={number === 1 ? 'plain' : 'attention'}>
      {say('drawup.course', { number, of })}
      {number === 1 || lastAt === null ? '' : ` · ${say('drawup.course-last', { at: { instant: lastAt } })}`}
    </State>
  );
}
