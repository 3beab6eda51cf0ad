import { say } from '../../words/say.js';

/** Stands on every page: who decides, and in the demo that nothing here is real. */
export function DemoLine({ demo }: { demo: boolean }) {
  return (
    <p className="demo-line">
      {demo ? `${say('parts.demo')} ` : ''}
      {say('parts.advises')}
    </p>
  );
}
