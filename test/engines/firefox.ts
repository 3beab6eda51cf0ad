import { type ElementHandle, launch } from 'puppeteer-core';
import { patience_ms } from '../support/patience.js';
import type { Engine, Screen } from './screen.js';

/** Firefox without a window, by WebDriver BiDi. */
export async function openFirefox(program: string): Promise<Engine> {
  const browser = await launch({ browser: 'firefox', executablePath: program, timeout: patience_ms });
  return {
    name: 'Firefox',
    screen: async (size): Promise<Screen> => {
      const device = await browser.createBrowserContext();
      const page = await device.newPage();
      page.setDefaultTimeout(patience_ms);
      await page.setViewport(size);
      return {
        goto: async (url) => void (await page.goto(url)),
        reload: async () => void (await page.reload()),
        ask: (inPage, ...of) => page.evaluate<string[], typeof inPage>(inPage, ...of),
        press: async (find, ...of) => {
          const found = (
            await page.evaluateHandle<string[], typeof find>(find, ...of)
          ).asElement() as ElementHandle<Element> | null;
          if (found === null) return false;
          await found.click();
          return true;
        },
        type: (keys, apart_ms) => page.keyboard.type(keys, { delay: apart_ms }),
        picture: async () => Buffer.from(await page.screenshot()),
        close: () => device.close(),
      };
    },
    close: () => browser.close(),
  };
}
