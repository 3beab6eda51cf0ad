import { say } from '../../../words/say.js';
import { Page } from '../../parts/page.js';

export function Today() {
  return <Page title={say('parts.place.today')}>{null}</Page>;
}
