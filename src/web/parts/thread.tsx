import { say } from '../../words/say.js';

interface ThreadProps {
  /** All four in milliseconds since 1970. */
  readonly start: number;
  readonly opens: number;
  readonly closes: number;
  readonly now: number;
  readonly label: string;
}

const clampShare = (share: number): number => Math.min(1, Math.max(0, share));
const percent = (share: number): string => `${(clampShare(share) * 100).toFixed(2)}%`;

/** Time since a start as a thread that runs into a bracket: the window in which the test is read. */
export function Thread({ start, opens, closes, now, label }: ThreadProps) {
  const whole = closes - start;
  const at = (instant: number): string => percent((instant - start) / whole);
  const left = at(opens);
  return (
    <svg
      className="thread"
      width="100%"
      height="26"
      role="img"
      aria-label={`${label}: ${windowInWords(opens, closes, now)}`}
    >
      <line x1="0" y1="22" x2="100%" y2="22" stroke="var(--rule)" strokeWidth="1.5" />
      <rect
        x={left}
        y="6"
        width={percent((closes - opens) / whole)}
        height="16"
        fill="var(--wash-cobalt)"
        stroke="var(--cobalt)"
        strokeWidth="1.5"
      />
      <line x1="0" y1="15" x2={at(now)} y2="15" stroke="var(--cobalt)" strokeWidth="3" />
      <circle cx={at(now)} cy="15" r="5.5" fill="var(--cobalt)" />
    </svg>
  );
}

/** Minutes and seconds as `2:10`; hours are counted in minutes. */
export function clockText(ms: number): string {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}

export function windowInWords(opens: number, closes: number, now: number): string {
  if (now < opens) return say('parts.thread.opens-in', { time: clockText(opens - now) });
  if (now <= closes) return say('parts.thread.open', { time: clockText(closes - now) });
  return say('parts.thread.closed', { minutes: Math.floor((now - closes) / 60_000) });
}
