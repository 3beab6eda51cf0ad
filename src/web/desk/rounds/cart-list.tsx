import { Fragment } from 'react';
import { writeVolume } from '../../../core/quantity/write.js';
import type { Preparation } from '../../../log/prepare/prepare.js';
import { itemText } from '../../../told/item-text.js';
import { lotNameOf } from '../../../told/lot-words.js';
import { say } from '../../../words/say.js';
import { outInWords } from '../../ribbon/fridge-alarm.js';
import type { FridgeCall } from '../../ribbon/fridge-calls.js';

interface Thing {
  readonly key: string;
  readonly count: string;
  readonly what: string;
  readonly note: string;
}

interface CartListProps {
  readonly plan: Preparation;
  /** When each kind of test has to leave the cold. */
  readonly calls: readonly FridgeCall[];
  readonly now_ms: number;
}

/** Why fewer tests have to leave the cold than the round uses. */
const outAlready = (tests: number, call: FridgeCall | undefined): string =>
  call === undefined || call.missing === 0 || call.missing >= tests
    ? ''
    : say('desk.cart.out-already', { count: tests - call.missing, missing: call.missing });

/** The cart list to tick off: warm first, then vials, syringes, chips, what to wear, what cleans. */
export function CartList({ plan, calls, now_ms }: CartListProps) {
  const { cart } = plan;
  const lots = (wanted: (lot: Preparation['lots'][number]['lot']) => boolean): string => {
    const fitting = plan.lots.filter(({ lot, doses }) => wanted(lot) && doses > 0);
    return fitting.length === 0
      ? say('desk.cart.no-lot')
      : say('desk.cart.lots', {
          lots: {
            list: fitting.map(({ lot, left, doses }) =>
              say('desk.cart.lot', { doses, lot: lotNameOf(lot), left, expires: lot.expires ?? 'none' }),
            ),
          },
        });
  };
  const groups: readonly (readonly [string, readonly Thing[]])[] = [
    [
      say('desk.cart.warm'),
      cart.kits.map(({ kit, tests, readySyringes }) => ({
        key: kit.id,
        count: String(tests),
        what: kit.name,
        note: `${outAlready(
          tests,
          calls.find((call) => call.kit.id === kit.id),
        )} ${outInWords(
          calls.find((call) => call.kit.id === kit.id),
          now_ms,
        )} ${say('desk.cart.warm-note', { minutes: kit.warmMinutes, syringes: readySyringes })} ${lots((lot) => lot.of.is === 'kit' && lot.of.kitType === kit.id)}`.trim(),
      })),
    ],
    [
      say('desk.cart.products'),
      cart.products.map(({ product, doses, inWords, volume_ul }) => ({
        key: product.id,
        count: say('desk.cart.doses', { count: doses }),
        what: product.name,
        note: `${inWords === 0 ? '' : `${say('desk.cart.in-words', { count: inWords })} `}${volume_ul === null ? say('desk.cart.volume-unknown') : volume_ul === 0 ? '' : say('desk.cart.volume', { volume: writeVolume(volume_ul) })} ${lots((lot) => lot.of.is === 'product' && lot.of.product === product.id)}`.trim(),
      })),
    ],
    [
      say('desk.cart.syringes'),
      cart.syringes.map(({ syringe, count }) => ({
        key: syringe.id,
        count: String(count),
        what: syringe.name,
        note: '',
      })),
    ],
    [
      say('desk.cart.tools'),
      [
        ...(cart.chips > 0
          ? [
              {
                key: 'chips',
                count: String(cart.chips),
                what: say('desk.cart.chips'),
                note: lots((lot) => lot.of.is === 'chips'),
              },
            ]
          : []),
        ...(cart.scale ? [{ key: 'scale', count: '1', what: say('desk.cart.scale'), note: '' }] : []),
        ...(cart.reader
          ? [{ key: 'reader', count: '1', what: say('desk.cart.reader'), note: say('desk.cart.reader-note') }]
          : []),
        ...(cart.sharpsBox
          ? [{ key: 'sharps', count: '1', what: say('desk.cart.sharps'), note: say('desk.cart.sharps-note') }]
          : []),
      ],
    ],
    [
      say('desk.cart.wear'),
      [
        {
          key: 'gloves',
          count: String(cart.glovePairs),
          what: say('desk.cart.gloves'),
          note: say('desk.cart.gloves-note'),
        },
        ...cart.wear
          .filter(({ item }) => item !== 'wear.gloves')
          .map(({ section, item, count }) => ({
            key: `${section} ${item}`,
            count: String(count),
            what: itemText(item),
            note: section,
          })),
      ],
    ],
    [
      say('desk.cart.cleaning'),
      [
        {
          key: 'wipe',
          count: '',
          what: say('desk.cart.disinfectant'),
          note: say('desk.cart.contact', { minutes: cart.contactMinutes }),
        },
      ],
    ],
  ];
  return (
    <div className="cart">
      {groups
        .filter(([, things]) => things.length > 0)
        .map(([title, things]) => (
          <Fragment key={title}>
            <h3>{title}</h3>
            <ul className="plain keep">
              {things.map((thing) => (
                <li key={thing.key}>
                  <span className="box" aria-hidden="true" />
                  <span className="mono">{thing.count}</span>
                  <span>
                    {thing.what}
                    {thing.note === '' ? null : <span className="soft small">{` ${thing.note}`}</span>}
                  </span>
                </li>
              ))}
            </ul>
          </Fragment>
        ))}
      {cart.cleaning.length === 0 ? null : (
        <p className="small soft">
          {say('desk.cart.leaving', { steps: cart.cleaning.map((item) => itemText(item)).join('. ') })}
        </p>
      )}
    </div>
  );
}
