import type { ReactNode } from 'react';
import { useLocation } from 'wouter';
import { say } from '../../words/say.js';
import { AboveSheets } from '../parts/above-sheets.js';
import { DemoLine } from '../parts/demo-line.js';
import { RunningOnSheets, RunningStrip } from '../running/running-strip.js';
import { useShelter } from '../store/here.js';
import { BrokenPage } from './broken-page.js';
import { Header } from './header.js';
import { Notices } from './notices.js';
import { ScanToAnimal } from './scan-to-animal.js';

/** The desk's page around every desk screen. */
export function Shell({ children }: { children: ReactNode }) {
  const { demo } = useShelter();
  const [here] = useLocation();
  return (
    <AboveSheets value={<RunningOnSheets />}>
      <div className="shell">
        <a className="skip" href="#main">
          {say('parts.skip')}
        </a>
        <Header />
        <RunningStrip />
        <main className="shell-main" id="main">
          <Notices />
          <ScanToAnimal />
          <BrokenPage at={here}>{children}</BrokenPage>
        </main>
        <footer>
          <DemoLine demo={demo} />
        </footer>
      </div>
    </AboveSheets>
  );
}
