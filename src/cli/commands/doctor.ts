import { resolve } from 'node:path';
import { said } from '../../core/said.js';
import { say } from '../../words/say.js';
import { type Command, dataOption } from '../command.js';
import { dataFolder } from '../data-folder.js';
import { lookAtCopies, lookAtKeys, lookAtPeople, lookAtRecords } from '../doctor/keeping.js';
import { lookAtApp, lookAtNode } from '../doctor/machine.js';
import { lookAtPort } from '../doctor/port.js';
import { done, misused } from '../exit.js';
import { tell, withWords } from '../output.js';
import { portGiven } from '../port.js';

/** Everything that can stand in the way of a day's work, looked at in the order in which one thing follows from another. */
export const doctor: Command = {
  name: 'doctor',
  options: { ...dataOption, port: { value: 'NUMBER' }, copies: { value: 'DIR' }, json: {} },
  example: 'doctor --data ~/roundhand --copies /media/copies',
  run: async (given) => {
    const port = portGiven(given);
    if (port === null) return misused('cli.start.not-a-port', { given: given.text('port') ?? '' });
    const folder = dataFolder(given);
    const place = given.text('copies');
    const now = new Date().toISOString();
    const found = [
      lookAtNode(),
      lookAtApp(),
      ...(await lookAtRecords(folder, now)),
      ...(await lookAtPeople(folder)),
      ...lookAtKeys(folder, now),
      ...lookAtCopies(place === null ? null : resolve(place), now),
      await lookAtPort(port, folder),
    ];
    const count = found.filter((one) => one.is === 'wrong').length;
    const attention = found.filter((one) => one.is === 'attention').length;
    if (given.flag('json')) tell(JSON.stringify(withWords(found)));
    else {
      for (const { is, what } of found) tell(say(said(`cli.doctor.${is}`, { what })));
      tell(say(count === 0 ? said('cli.doctor.all-well', { attention }) : said('cli.doctor.some-wrong', { count })));
    }
    return count === 0 ? done : { code: 1 };
  },
};
