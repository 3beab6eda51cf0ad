import { Fragment } from 'react';
import { Link } from 'wouter';
import { writeVolume } from '../../../core/quantity/write.js';
import type { DrawUp } from '../../../log/views/round/draw-ups.js';
import { nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { GoButton } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { Sentence } from '../../parts/sentence.js';
import { Notice, State } from '../../parts/state.js';
import { cardPath, labelsPath } from './links.js';
import { massText } from './mass-text.js';
import { labelSizes } from './paths.js';
import '../../style/draw-up.css';

/** The sheet for the cart: one line a syringe in the order of the round, with the stops among them. */
export function BatchSheet({ from, drawUps, at }: { from: string; drawUps: readonly DrawUp[]; at: string }) {
  const ready = drawUps.filter((one) => !one.dose.stopped);
  const sections = [...new Set(drawUps.map((one) => one.section?.name ?? ''))];
  return (
    <Page
      title={say('drawup.sheet.title')}
      beside={say('drawup.worked-out', { at: { instant: at } })}
      lead={say('drawup.sheet.lead', { ready: ready.length, stopped: drawUps.length - ready.length })}
      acts={
        <>
          {ready.length === 0
            ? null
            : labelSizes.map((size) => (
                <GoButton key={size} to={labelsPath(from, size)}>
                  {say('drawup.sheet.labels', { size: say(`drawup.label.size.${size}`), count: ready.length })}
                </GoButton>
              ))}
          <Act main onAct={() => window.print()}>
            {say('parts.print')}
          </Act>
        </>
      }
    >
      <Notice tone="attention">{say('drawup.sheet.one-at-a-time')}</Notice>
      {drawUps.length === 0 ? <p>{say('drawup.sheet.nothing')}</p> : null}
      {sections.map((section) => (
        <Part key={section} title={section === '' ? say('drawup.sheet.no-section') : section}>
          <DataTable
            caption={section}
            rows={drawUps.filter((one) => (one.section?.name ?? '') === section)}
            keyOf={(one) => one.key}
            columns={[
              {
                id: 'tick',
                label: say('drawup.sheet.drawn'),
                cell: () => <span className="box" aria-hidden="true" />,
              },
              {
                id: 'animal',
                label: say('drawup.sheet.animal'),
                names: true,
                cell: (one) => (
                  <>
                    <Link href={cardPath(from, one.key)}>{nameOf(one.animal)}</Link>
                    <span className="soft small">{` ${one.animal.kennel}`}</span>
                  </>
                ),
              },
              { id: 'product', label: say('drawup.sheet.product'), cell: (one) => <Product one={one} /> },
              { id: 'volume', label: say('drawup.sheet.volume'), num: true, keepLine: true, cell: volumeCell },
              { id: 'mark', label: say('drawup.sheet.mark'), cell: (one) => <Mark one={one} /> },
              {
                id: 'drug',
                label: say('drawup.sheet.drug'),
                num: true,
                keepLine: true,
                cell: ({ dose }) => (dose.stopped ? '' : massText(dose)),
              },
              { id: 'where', label: say('drawup.sheet.where'), cell: whereCell },
              { id: 'lot', label: say('drawup.sheet.lot'), cell: (one) => one.lot?.lotText ?? say('drawup.no-lot') },
            ]}
          />
        </Part>
      ))}
      <p className="small">{say('drawup.veterinarian')}</p>
    </Page>
  );
}

function Product({ one }: { one: DrawUp }) {
  const { course } = one;
  return (
    <>
      {one.product.name}
      {course === null || course.of === 1 ? null : (
        <b>{` ${say('drawup.course', { number: course.number, of: course.of })}`}</b>
      )}
    </>
  );
}

function volumeCell({ dose }: DrawUp) {
  if (dose.stopped) return <State tone="stop">{say('drawup.sheet.stopped')}</State>;
  if (dose.inWords !== null) return <State tone="attention">{say('drawup.in-words.short')}</State>;
  if (dose.drawn !== null) {
    const each = writeVolume(dose.drawn.volume_ul);
    return dose.places === 1 ? each : say('drawup.sheet.times', { places: dose.places, each });
  }
  return dose.pieces === null ? writeVolume(dose.exact_ul ?? 0) : <Sentence what={dose.pieces} />;
}

function Mark({ one: { dose } }: { one: DrawUp }) {
  if (dose.stopped) {
    const [first] = dose.gates;
    return first === undefined ? null : (
      <>
        <b>{say(`gate.${first.code}`)}.</b> <Sentence what={first.why} />
        {dose.inWords === null ? null : <b>{` ${say('drawup.in-words', { words: dose.inWords })}`}</b>}
      </>
    );
  }
  if (dose.inWords !== null) {
    return (
      <>
        <b>{say('drawup.in-words', { words: dose.inWords })}</b>
        {dose.gates.map((gate) => (
          <Fragment key={gate.code}>
            {' '}
            <Sentence what={gate.why} />
          </Fragment>
        ))}
      </>
    );
  }
  const second = dose.gates.some((gate) => gate.severity === 'second-person');
  return (
    <Fragment>
      {dose.drawn === null
        ? ''
        : say('drawup.sheet.mark-in', { mark: dose.drawn.mark, syringe: dose.drawn.syringeName })}
      {second ? <b>{` ${say('drawup.sheet.second')}`}</b> : null}
    </Fragment>
  );
}

const whereCell = ({ product }: DrawUp): string =>
  product.siteCode === null || product.siteCode === 'mouth'
    ? product.route
    : `${product.route}, ${say(`drawup.site.${product.siteCode}`)}`;
