import type { Page } from 'playwright-core';

/** Scripts that came over the wire, in bytes as they were sent. */
export interface Wire {
  readonly bytes: number;
  /** Each script with its bytes, the heaviest first. */
  readonly scripts: readonly (readonly [url: string, bytes: number])[];
}

/**
 * Loads the page that stands there once more with nothing kept but its storage, and counts the scripts it asks for until
 * `stands` says that it stands and the line has been quiet for a while. `encoding`: what the browser says it can unpack.
 */
export async function scriptsOverTheWire(page: Page, stands: () => Promise<unknown>, encoding?: string): Promise<Wire> {
  const line = await page.context().newCDPSession(page);
  const urls = new Map<string, string>();
  const bytes = new Map<string, number>();
  line.on('Network.responseReceived', ({ requestId, type, response }) => {
    if (type === 'Script') urls.set(requestId, response.url);
  });
  line.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => bytes.set(requestId, encodedDataLength));
  await line.send('Network.enable');
  await line.send('Network.setCacheDisabled', { cacheDisabled: true });
  await line.send('Network.setBypassServiceWorker', { bypass: true });
  if (encoding !== undefined)
    await line.send('Network.setExtraHTTPHeaders', { headers: { 'Accept-Encoding': encoding } });
  await page.reload();
  await stands();
  await page.waitForLoadState('networkidle').catch(() => undefined);
  await line.detach();
  const scripts = [...urls]
    .map(([id, url]) => [new URL(url).pathname, bytes.get(id) ?? 0] as const)
    .sort(([, a], [, b]) => b - a);
  return { bytes: scripts.reduce((sum, [, one]) => sum + one, 0), scripts };
}
