import { dueList } from './forecast/due-list.js';
import { oneRecord } from './forecast/one-record.js';
import { speed } from './forecast/speed.js';
import { environment, reportFor } from './report.js';

/** How fast is the forecast, does its cost grow, and how quickly is a due list read? `--animals N` for a shorter run. */
const options = process.argv.slice(2);
const at = options.indexOf('--animals');
const count = at < 0 ? 1_000_000 : Number(options[at + 1]);
const report = reportFor('forecast', options.includes('--write'));
report.line(environment());
speed(report, count);
oneRecord(report);
await dueList(report, count);
process.exitCode = report.end() ? 0 : 1;
