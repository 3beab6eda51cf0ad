import { dueList } from './forecast/due-list.js';
import { oneRecord } from './forecast/one-record.js';
import { speed } from './forecast/speed.js';
import { cpuNow, environment, reportFor } from './report.js';
import { yardstickBy } from './yardstick.js';

/** How fast is the forecast, does its cost grow, and how quickly is a due list read? `--animals N` for a shorter run. */
const options = process.argv.slice(2);
const at = options.indexOf('--animals');
const count = at < 0 ? 1_000_000 : Number(options[at + 1]);
const report = reportFor('forecast', options.includes('--write'));
report.line(environment());
const yardstick = yardstickBy(cpuNow);
speed(report, yardstick, count);
oneRecord(report, yardstick);
await dueList(report, yardstick, count);
report.line(yardstick.told());
process.exitCode = report.end() ? 0 : 1;
