import { aptInstall, canInstall } from './debian.mjs';
import { isProgram, onPath, tell } from './run.mjs';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** Path of the browser the journeys drive; CHROME_PATH comes first. Installs it on Debian as root; null with a sentence. */
export async function findChromium() {
  const named = process.env.CHROME_PATH;
  if (named !== undefined && named !== '') {
    if (isProgram(named)) return named;
    tell(`CHROME_PATH names ${named}, which is not a program.`);
    return null;
  }
  const found = installed();
  if (found !== null) return found;
  if (canInstall() && (await aptInstall(['chromium', 'fonts-liberation']))) return installed();
  tell(
    'The journeys drive a real browser and none was found. Install Chromium (Debian: sudo apt-get install chromium), ' +
      'or name one with CHROME_PATH=/path/to/it.',
  );
  return null;
}

const installed = () => names.map(onPath).find((path) => path !== null) ?? null;
