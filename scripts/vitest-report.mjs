import { existsSync, readFileSync } from 'node:fs';

/**
 * Counts of one vitest run from its JSON report. A file that broke before its tests counts as one failed, and so does a
 * run that ended badly with no failed test to show for it (an unhandled rejection, no test files, no report at all).
 */
export function countTests(reportPath, exitCode) {
  const counts = { passed: 0, failed: 0, skipped: 0, note: '' };
  if (existsSync(reportPath)) {
    const report = JSON.parse(readFileSync(reportPath, 'utf8'));
    for (const file of report.testResults) {
      const failed = file.assertionResults.filter((one) => one.status === 'failed').length;
      counts.failed += failed === 0 && file.status === 'failed' ? 1 : failed;
      counts.passed += file.assertionResults.filter((one) => one.status === 'passed').length;
      counts.skipped += file.assertionResults.filter((one) => !['passed', 'failed'].includes(one.status)).length;
    }
    if (report.testResults.length === 0) counts.note = 'no test files were found';
  } else {
    counts.note = 'no report was written';
  }
  if (counts.failed === 0 && (exitCode !== 0 || counts.passed === 0)) {
    counts.failed = 1;
    counts.note ||= exitCode === 0 ? 'no test ran' : 'the run ended badly outside a test';
  }
  return counts;
}
