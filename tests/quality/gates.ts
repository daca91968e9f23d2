import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';
import { table } from '../support/markdown.ts';
import { figure, type Part } from './part.ts';

/** What a gate looked at when it ran last, as `.project/test.mjs` writes it down. */
interface GateResult {
  readonly title: string;
  readonly looked: number;
  readonly what: string;
  readonly day: string;
  readonly passed: boolean;
}

/** The gates that every change passes, and how much each looks at. */
export const gates: Part<Readonly<Record<string, GateResult>>> = {
  name: 'gates',
  title: 'Gates',
  about: `What CI runs (\`bash .ci/run\`), and how much each gate looked at when it ran last; one that looks at nothing fails.`,
  read: (before) => ({
    ...before,
    ...(JSON.parse(fs.readFileSync(path.join(ROOT, '.cache/gates.json'), 'utf8')) as Readonly<
      Record<string, GateResult>
    >),
  }),
  show: (results) =>
    table(
      ['gate', 'about', 'looked at', 'on', ''],
      Object.entries(results).map(([name, { title, looked, what, day, passed }]) => [
        name,
        title,
        `${figure(looked, 0)} ${what}`,
        day,
        passed ? 'passed' : '**failed**',
      ]),
    ),
};
