import type { ReactNode } from 'react';
import { say } from '../../words/say.js';
import { DemoLine } from '../parts/demo-line.js';
import { RunningStrip } from '../running/running-strip.js';
import { ScanToAnimal } from '../scan/scan-to-animal.js';
import { useShelter } from '../store/here.js';
import { Header } from './header.js';
import { Notices } from './notices.js';

/** The desk's page around every desk screen. */
export function Shell({ children }: { children: ReactNode }) {
  const { demo } = useShelter();
  return (
    <div className="shell">
      <a className="skip" href="#main">
        {say('parts.skip')}
      </a>
      <Header />
      <RunningStrip />
      <main className="shell-main" id="main">
        <Notices />
        <ScanToAnimal />
        {children}
      </main>
      <footer>
        <DemoLine demo={demo} />
      </footer>
    </div>
  );
}
