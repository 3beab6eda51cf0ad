import { useState } from 'react';
import { labelSizes } from '../../../papers/draw-up/label.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Page } from '../../parts/page.js';
import { useWorld } from '../../store/here.js';
import { BatchSheet } from './batch-sheet.js';
import { DrawUpCard } from './draw-up-card.js';
import { Labels } from './labels.js';
import { drawUpsOf } from './paths.js';

/** `/drawup/FROM`, `/drawup/FROM/card/KEY`, `/drawup/FROM/labels/SIZE` and `/drawup/FROM/labels/SIZE/KEY`. */
export function DrawUps({ params }: { params: { from: string; rest: string } }) {
  const world = useWorld();
  // The sheet stands still while it is read and printed: worked out as of the moment it was opened.
  const [at] = useState(now);
  const from = decodeURIComponent(params.from);
  const [what = '', one = '', two = ''] = params.rest.split('/').map(decodeURIComponent);
  const all = drawUpsOf(world, from, at);
  if (what === 'card') {
    const found = all.find((each) => each.key === one);
    if (found === undefined) return <Page title={say('drawup.gone')}>{null}</Page>;
    return <DrawUpCard from={from} drawUp={found} at={at} />;
  }
  if (what === 'labels') {
    const size = labelSizes.find((each) => each === one) ?? labelSizes[0];
    const wanted = two === '' ? all : all.filter((each) => each.key === two);
    return <Labels from={from} drawUps={wanted} size={size} at={at} only={two} />;
  }
  return <BatchSheet from={from} drawUps={all} at={at} />;
}
