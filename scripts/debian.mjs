import { onPath, run, tell } from './run.mjs';

/** Whether packages of the system can be installed here without asking anyone: root on Debian or a relative of it. */
export const canInstall = () => process.getuid?.() === 0 && onPath('apt-get') !== null;

/** Install packages of the system, saying so. True when apt-get reports success. */
export async function aptInstall(packages) {
  tell(`Installing ${packages.join(', ')} with apt-get ...`);
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  await run('apt-get', ['update', '-qq'], { env });
  return (await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], { env })) === 0;
}
