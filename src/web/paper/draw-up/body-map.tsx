import type { BodySite } from '../../../core/dosing/handling.js';
import { say } from '../../../words/say.js';

/** Where each place lies on the drawing: the cat from above, head up, so that its own left is on the left. */
const at: Readonly<Record<BodySite, readonly [number, number]>> = {
  mouth: [70, 17],
  'back-of-head': [70, 44],
  'neck-front-of-shoulders': [70, 62],
  'left-fore-low': [31, 82],
  'right-fore-low': [109, 82],
  'left-hind-low': [29, 162],
  'right-hind-low': [111, 162],
  'left-flank': [49, 112],
  'right-flank': [91, 112],
  'left-thigh': [43, 142],
  'right-thigh': [97, 142],
  'left-ear': [54, 22],
  'right-ear': [86, 22],
  'left-eye': [62, 25],
  'right-eye': [78, 25],
  tail: [70, 190],
};

/** The animal from above with the place marked; left and right are its own, and it says so. */
export function BodyMap({ site }: { site: BodySite }) {
  const [x, y] = at[site];
  return (
    <figure className="body-map">
      <svg viewBox="0 0 140 208" role="img" aria-label={say(`drawup.site.${site}`)}>
        <g fill="none" stroke="var(--rule)" strokeWidth="1.6" strokeLinejoin="round" strokeLinecap="round">
          <path d="M57 50c-7-6-9-14-7-23l-1-17 13 9c5-2 11-2 16 0l13-9-1 17c2 9 0 17-7 23" />
          <path d="M58 51c-6 6-17 14-20 27-3 12 2 22 1 36-1 15-7 24-3 36 4 13 19 19 34 19s30-6 34-19c4-12-2-21-3-36-1-14 4-24 1-36-3-13-14-21-20-27" />
          <path d="M40 72c-8 3-15 8-16 17M100 72c8 3 15 8 16 17M37 146c-8 4-14 12-15 23M103 146c8 4 14 12 15 23" />
          <path d="M70 169c-2 10 5 17 3 32" />
          <path d="M70 66V158" strokeDasharray="2 5" stroke="var(--line)" />
        </g>
        <circle cx={x} cy={y} r="8.5" fill="none" stroke="var(--madder)" strokeWidth="3" />
        <circle cx={x} cy={y} r="2.6" fill="var(--madder)" />
        <text x="2" y="120" className="map-word">
          {say('drawup.map.left')}
        </text>
        <text x="138" y="120" className="map-word" textAnchor="end">
          {say('drawup.map.right')}
        </text>
      </svg>
      <figcaption>{say(`drawup.site.${site}`)}</figcaption>
    </figure>
  );
}
