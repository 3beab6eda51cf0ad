import { CalendarDate } from '../src/core/calendar.js';
import { sectionRanks } from '../src/core/biosecurity/section.js';
import { forecast } from '../src/core/protocol/forecast.js';
import { subjectOf } from '../src/core/protocol/subject.js';
import { herd } from './forecast/animals.js';
import { formulary, protocol } from './forecast/documents.js';
const today = CalendarDate.parse('2026-06-15');
const next = herd(protocol, formulary, today, 1);
const inputs = Array.from({ length: 1000 }, (_, at) => ({ animal: next(), formulary, rank: sectionRanks[at % 6] ?? null }));
let n = 0;
for (let r = 0; r < 60; r += 1) {
  const t = process.cpuUsage();
  const w = performance.now();
  for (const input of inputs) n += forecast(input, protocol, today).length;
  const u = process.cpuUsage(t);
  const w1 = performance.now();
  if (r % 10 === 9) {
    for (const input of inputs) { const s = subjectOf(input, protocol, today); for (const sch of protocol.schedules) n += s.progressOf(sch).place; }
    const w2 = performance.now();
    console.log(r, 'cpu us/animal', ((u.user + u.system) / 1000).toFixed(1), 'wall', (w1 - w).toFixed(1), 'walk only', (w2 - w1).toFixed(1));
  }
}
console.log(n);
