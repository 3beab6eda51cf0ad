import { watched } from '../../device/snapshot.js';

/** `off`: nobody has tapped yet. `refused`: the browser would not play although asked. */
export type SoundState = 'off' | 'on' | 'refused' | 'none';
export const soundState = watched<SoundState>('off');

let context: AudioContext | null = null;

/** Frequency in hertz, length and pause in milliseconds. Alarm and stop differ in pitch, rhythm and length. */
interface Tone {
  readonly hz: number;
  readonly on_ms: number;
  readonly off_ms: number;
}
const sounds = {
  read: [
    { hz: 880, on_ms: 160, off_ms: 90 },
    { hz: 1175, on_ms: 160, off_ms: 90 },
    { hz: 880, on_ms: 160, off_ms: 90 },
    { hz: 1175, on_ms: 260, off_ms: 0 },
  ],
  stop: [
    { hz: 220, on_ms: 420, off_ms: 120 },
    { hz: 165, on_ms: 620, off_ms: 0 },
  ],
  match: [{ hz: 1320, on_ms: 90, off_ms: 0 }],
} as const satisfies Record<string, readonly Tone[]>;
export type SoundName = keyof typeof sounds;

const shakes: Readonly<Record<SoundName, number[]>> = {
  read: [200, 100, 200, 100, 200, 100, 400],
  stop: [700, 150, 700],
  match: [60],
};

/** Called inside a tap: browsers only let a page sound after one. */
export async function unlockSound(): Promise<SoundState> {
  if (typeof AudioContext === 'undefined') {
    soundState.set('none');
    return 'none';
  }
  try {
    context ??= new AudioContext();
    await context.resume();
    soundState.set(context.state === 'running' ? 'on' : 'refused');
  } catch {
    soundState.set('refused');
  }
  return soundState.get();
}

/** Sounds and shakes; where sound is refused the state says so and the screen shows it. */
export function signal(name: SoundName): void {
  // Absent on desks and on some phones; the banner and the sound remain.
  if ('vibrate' in navigator) navigator.vibrate(shakes[name]);
  if (context === null || context.state !== 'running') {
    if (soundState.get() !== 'none') soundState.set(context === null ? 'off' : 'refused');
    return;
  }
  let at = context.currentTime;
  for (const tone of sounds[name]) {
    const oscillator = context.createOscillator();
    const loudness = context.createGain();
    oscillator.type = name === 'stop' ? 'square' : 'triangle';
    oscillator.frequency.value = tone.hz;
    loudness.gain.value = name === 'stop' ? 0.35 : 0.6;
    oscillator.connect(loudness).connect(context.destination);
    oscillator.start(at);
    oscillator.stop(at + tone.on_ms / 1000);
    at += (tone.on_ms + tone.off_ms) / 1000;
  }
}
