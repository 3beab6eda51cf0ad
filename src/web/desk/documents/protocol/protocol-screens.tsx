import { say } from '../../../../words/say.js';
import { Compare } from './compare.js';
import { Editor } from './editor.js';
import { SignProtocol } from './sign.js';

/** The pages about one version of the protocol, by the rest of their address. */
export function ProtocolScreens({ rest }: { rest: string }) {
  const [what, ...names] = rest.split('/');
  const version = decodeURIComponent(names.join('/'));
  switch (what) {
    case 'draft':
      return <Editor />;
    case 'sign':
      return <SignProtocol key={version} version={version} />;
    case 'compare':
      return <Compare key={version} version={version} />;
    default:
      return <p className="page">{say('parts.no-such-page')}</p>;
  }
}
