import { registerSW } from 'virtual:pwa-register';
import { watched } from '../../device/snapshot.js';
import type { World } from '../../log/views/world.js';
import { store } from './here.js';
import { isNewer } from './newer.js';

/** True when a newer version of the program is on the device and waits to be used. */
export const newerVersion = watched(false);

let useIt: (reload?: boolean) => Promise<void> = async () => undefined;

export function watchVersion(): void {
  if (!('serviceWorker' in navigator)) return;
  useIt = registerSW({
    immediate: true,
    onNeedRefresh: async () => {
      if (isNewer(await navigator.serviceWorker.getRegistration())) newerVersion.set(true);
    },
    onRegisteredSW: (_url, registration) => {
      setInterval(() => void registration?.update().catch(() => undefined), 15 * 60_000);
    },
  });
}

/** A round under way or a test whose clock runs: the program must stay as it is. */
export function mustNotSwitch(world: World): boolean {
  const rounds = [...world.shelter.rounds.values()];
  const device = store.who.get();
  const onRound = rounds.some(
    (round) =>
      round.begunAt !== null &&
      round.handedBack === null &&
      (round.treater === device.person || round.holder === device.person),
  );
  return onRound || [...world.animals.values()].some((animal) => animal.runs.some(running));
}

const running = (run: { readonly startedAt: string | null; readonly readAt: string | null }): boolean =>
  run.startedAt !== null && run.readAt === null;

export const switchVersion = (): Promise<void> => useIt(true);
