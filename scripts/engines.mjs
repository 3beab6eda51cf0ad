import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { aptInstall, canInstall } from './debian.mjs';
import { isProgram, onPath, tell } from './run.mjs';

/** The packages of Debian in which the programs of the other engines come. */
const packages = { firefox: 'firefox-esr', driver: 'webkit2gtk-driver', browser: 'webkit2gtk-driver', display: 'xvfb' };

/** The programs that drive Firefox and WebKit, and the packages of those that are not here. */
export function enginesHere() {
  const firefox = onPath('firefox-esr') ?? onPath('firefox') ?? '';
  const webkit = {
    driver: onPath('WebKitWebDriver') ?? '',
    browser: smallBrowser() ?? '',
    display: onPath('Xvfb') ?? '',
  };
  const missing = Object.entries({ firefox, ...webkit }).flatMap(([one, path]) => (path === '' ? [packages[one]] : []));
  return { programs: { firefox, webkit }, missing: [...new Set(missing)] };
}

/** Installs what is missing on Debian as root; what is missing afterwards, each with a sentence. */
export async function findEngines() {
  // One by one: a package that cannot be had does not keep the others away.
  if (canInstall()) for (const one of enginesHere().missing) await aptInstall([one]);
  const { missing } = enginesHere();
  for (const one of missing)
    tell(
      `The round in other browsers needs ${one}, which is not here. Install it (Debian: sudo apt-get install ${one}).`,
    );
  return missing;
}

/** WebKit's own small browser lies beside its library, on no PATH. */
function smallBrowser(folder = '/usr/lib') {
  if (!existsSync(folder)) return null;
  const places = readdirSync(folder).flatMap((system) =>
    ['webkit2gtk-4.1', 'webkitgtk-6.0', 'webkit2gtk-4.0'].map((library) =>
      join(folder, system, library, 'MiniBrowser'),
    ),
  );
  return places.find(isProgram) ?? null;
}
