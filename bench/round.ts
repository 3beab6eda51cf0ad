import { cpuNow, environment, reportFor } from './report.js';
import { families } from './round/families.js';
import { proven } from './round/proven.js';
import { robust } from './round/robust.js';
import { settings } from './round/settings.js';
import { speed } from './round/speed.js';
import { yardstickBy } from './yardstick.js';

/** How good are the plans, how fast, and how safe? One run, fixed seeds; every plan is checked outside of its time. */
const parts = { proven, families, speed, settings, robust };
const options = process.argv.slice(2);
const only = options.filter((one) => !one.startsWith('--'));
const report = reportFor('round', options.includes('--write'));
report.line(`${environment()} One thread plans.`);
const yardstick = yardstickBy(cpuNow);
for (const [name, part] of Object.entries(parts)) if (only.length === 0 || only.includes(name)) part(report, yardstick);
report.line(yardstick.told());
process.exitCode = report.end() ? 0 : 1;
