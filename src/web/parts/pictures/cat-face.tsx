import type { Photo } from '../../../core/animal/photo.js';
import { say } from '../../../words/say.js';
import { usePhoto } from './use-picture.js';

/** Collar words that have a colour to draw; others are drawn in ink. From common English colour words, no source. */
const colours: Readonly<Record<string, string>> = {
  red: '#c0392b',
  coral: '#e2725b',
  orange: '#d9791f',
  yellow: '#e0b52a',
  lime: '#8fb52a',
  green: '#3d8b4f',
  teal: '#1f8a86',
  blue: '#2f62b0',
  navy: '#22356b',
  purple: '#74489a',
  violet: '#74489a',
  pink: '#d9709b',
  brown: '#7a5230',
  grey: '#83898e',
  gray: '#83898e',
  white: '#ffffff',
  black: '#222222',
};

export function collarColour(collar: string): string | null {
  const words = collar.toLowerCase().split(/[^a-z]+/);
  const named = words.find((word) => Object.hasOwn(colours, word));
  return named === undefined ? null : (colours[named] ?? null);
}

interface CatFaceProps {
  readonly name: string;
  readonly collar: string;
  readonly photo: Photo | null;
  /** Edge in pixels. */
  readonly size?: number;
}

/** The animal's photo, or a drawn face that wears its collar; in a broken line when the photo is not on this device. */
export function CatFace({ name, collar, photo, size = 76 }: CatFaceProps) {
  const { address } = usePhoto(photo, 'small');
  const frame = {
    width: size,
    height: size,
    border: `var(--stroke) ${photo === null || address !== null ? 'solid' : 'dashed'} var(--rule)`,
    background: 'var(--sheet)',
    flex: 'none',
  };
  if (address !== null) {
    return <img src={address} alt={say('parts.photo', { name })} style={{ ...frame, objectFit: 'cover' }} />;
  }
  const colour = collarColour(collar);
  return (
    <svg
      viewBox="-8 -6 76 76"
      style={frame}
      fill="none"
      stroke="currentColor"
      strokeWidth="2"
      role="img"
      aria-label={say(photo === null ? 'parts.no-photo' : 'parts.photo.not-here', { name })}
    >
      <path d="M12 24 14 8l12 10h8L46 8l2 16c4 10-2 24-18 24S8 34 12 24Z" />
      <path d="M23 29v3M37 29v3M27 38l3 2 3-2" />
      {colour === null ? null : <path d="M17 53q13 7 26 0" stroke="var(--ink)" strokeWidth="8" />}
      {colour === null ? null : <path d="M17 53q13 7 26 0" stroke={colour} strokeWidth="5.5" />}
    </svg>
  );
}
