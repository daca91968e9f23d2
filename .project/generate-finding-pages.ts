/** Makes docs/findings.md and docs/findings/FAMILY-NAME.md from the findings and the pages beside them. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { RULES } from '../server/core/findings/list.ts';
import type { Rule } from '../server/core/findings/rule.ts';
import { writeGenerated } from './write-generated.ts';

const FOLDER = path.join(import.meta.dirname, '../server/core/findings');

/** The families in the order of the list, each with what its findings are about. */
const FAMILIES: Readonly<Record<string, string>> = {
  yaml: 'The text can be read at all.',
  shape: 'Keys and values are where the format has them.',
  unit: 'Numbers have units, of the right kind and of a likely size.',
  name: 'What is named exists, once, and can be set so.',
  wiring: 'Every terminal that is needed goes somewhere.',
  polarity: 'Every input is on and off when it should be, as its circuit was solved.',
  level: 'Voltages and currents are enough, and not too much.',
  power: 'Supplies suit what they feed.',
  wire: 'Wires are thick enough, protected, and told apart.',
  timing: 'Signals last as long as the drives ask for.',
  motion: 'Axes can do what is wanted of them.',
  spindle: 'The spindle turns as it is asked to.',
  handwheel: 'The handwheel suits the axes.',
  record: 'What was measured, and what follows from it.',
  setting: 'What is keyed in agrees with the rest.',
  safety: 'What is said about stopping the machine, and what is not.',
  silence: 'What was silenced is still there, and is what was meant.',
};

const SEVERITIES = {
  error: 'Error: it cannot work, or can damage a part.',
  warning: 'Warning: it works until something changes.',
  hint: 'Hint: advice.',
};

const MADE =
  '<!-- Made by .project/generate-finding-pages.ts from the pages beside the findings. Do not edit. -->';

function pageName(rule: Rule): string {
  return `${rule.code.replace('/', '-')}.md`;
}

function makePage(rule: Rule): string {
  const page = readFileSync(path.join(FOLDER, rule.code, 'page.md'), 'utf8').trim();
  const examples = page
    .replaceAll('```yaml wrong\n', 'Wrong:\n\n```yaml\n')
    .replaceAll('```yaml right\n', 'Right:\n\n```yaml\n');
  return `# ${rule.title}\n\n${MADE}\n\n\`${rule.code}\`. ${SEVERITIES[rule.severity]}\n\n${examples}\n\n[All findings](../findings.md)\n`;
}

function makeIndex(): string {
  const families = Object.entries(FAMILIES).map(([family, about]) => {
    const rows = RULES.filter((rule) => rule.code.startsWith(`${family}/`)).map(
      (rule) => `| [${rule.code}](findings/${pageName(rule)}) | ${rule.severity} | ${rule.title} |`,
    );
    return `## ${family}\n\n${about}\n\n| finding | severity | what is wrong |\n| --- | --- | --- |\n${rows.join('\n')}\n`;
  });
  const introduction = `An error cannot work or can damage a part; a warning works until something changes; a hint is advice. One mistake gives
one finding: what would only follow from it is held back until it is cured. Each page says what is wrong, why it
matters and what to do, with examples that are executed by the tests.

That nothing is found does not make a machine safe: local codes, the makers' manuals and licensed practice come first.`;
  return `# Findings\n\n${MADE}\n\n${introduction}\n\n${families.join('\n')}`;
}

const orphans = RULES.filter((rule) => !Object.hasOwn(FAMILIES, rule.code.split('/')[0] ?? ''));
if (orphans.length > 0)
  throw new Error(`a family without a line in the index: ${orphans.map((rule) => rule.code).join(', ')}`);

writeGenerated(
  new Map([
    ['docs/findings.md', makeIndex()],
    ...RULES.map((rule): [string, string] => [`docs/findings/${pageName(rule)}`, makePage(rule)]),
  ]),
);
