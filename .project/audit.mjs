/**
 * Looks up known weaknesses of everything that is installed, with `npm audit`. Not every registry answers that, and a
 * look-up that did not happen must not read as one that found nothing.
 */
import { run, StepError } from './steps.mjs';

/** What is said of the packages in the lock file. @throws StepError when the registry knows of a grave weakness */
export async function auditPackages() {
  const words = ['audit', '--json', '--fetch-retries=0', '--fetch-timeout=30000'];
  return judgeAudit(await run('npm', words, { accept: [0, 1], minutes: 3 }));
}

/**
 * What `npm audit` told, in a sentence. Weaknesses of a lower grade are of tools that nobody gives hostile input.
 * @throws StepError when it knows of a grave one
 */
export function judgeAudit(output) {
  const report = readReport(output);
  const counts = report?.metadata?.vulnerabilities;
  if (!counts) {
    const why = report?.message?.split(' - ')[0] ?? 'no answer';
    return `KNOWN WEAKNESSES WERE NOT LOOKED UP: the registry in use does not answer npm audit (${why})`;
  }
  const grave = counts.high + counts.critical;
  if (grave > 0) {
    const where = Object.keys(report.vulnerabilities).join(', ');
    throw new StepError(`known weaknesses, ${grave} of them grave, in: ${where}`, output);
  }
  return `${counts.total} known weaknesses, none of them grave`;
}

/** The report in what npm printed, before and behind which warnings may stand. */
function readReport(output) {
  try {
    return JSON.parse(output.slice(output.indexOf('{'), output.lastIndexOf('}') + 1));
  } catch {
    return undefined;
  }
}
