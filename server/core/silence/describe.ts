import { say } from '../language/say.ts';
import type { Silenced } from './settle.ts';

/**
 * A finding that was silenced, in words, as every list of them has it. What can damage a part or hurt someone must not
 * get out of sight because somebody did not want to see it in the editor.
 */
export function describeSilenced({ finding, by, reason }: Silenced): string {
  const why = reason === '' ? say`no reason given` : reason;
  const where = {
    line: say`on its line`,
    file: say`for the whole file`,
    project: say`for the whole project`,
  }[by];
  return say`${finding.severity}: ${finding.message} [${finding.code}] Silenced ${where}: ${why}.`.replace(
    /\.\.$/,
    '.',
  );
}
