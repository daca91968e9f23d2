/**
 * Makes the folder of a new finding and its entry in the list: `npm run new:finding FAMILY NAME [SEVERITY]`.
 * Its page shows one wrong and one right example, which the tests execute: they fail until the finding finds something.
 */
import fs from 'node:fs';
import path from 'node:path';

const FINDINGS = path.resolve('server/core/findings'); // npm runs scripts in the project folder
const SEVERITIES = ['error', 'warning', 'hint'];

const [givenFamily = '', givenName = '', severity = 'warning'] = process.argv.slice(2);
const code = `${givenFamily}/${givenName}`;
if (!/^[a-z]+\/[a-z]+(?:-[a-z]+)*$/.test(code) || !SEVERITIES.includes(severity)) {
  console.error(
    'Usage: npm run new:finding FAMILY NAME [error|warning|hint], e.g. npm run new:finding wire too-thin error',
  );
  process.exit(2);
}
const folder = path.join(FINDINGS, code);
if (fs.existsSync(folder)) {
  console.error(`${code} is there already.`);
  process.exit(1);
}

const RULE = `import type { Analysis } from '../../../analysis.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: '${code}',
  severity: '${severity}',
  title: 'What is wrong, in one line without figures',
  find: findFaults,
  say: (data) => \`What is wrong with \${word(data, 'part')}, why it matters here with the figures. What to do.\`,
};

function* findFaults(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  // Yield { at, data, related, fixes } for each case; data holds the words and figures of the message.
}
`;

const PAGE = `What is wrong, and why it matters.

What to do.

\`\`\`yaml wrong
machine: Toy lathe
\`\`\`

\`\`\`yaml right
machine: Toy lathe
\`\`\`
`;

fs.mkdirSync(folder, { recursive: true });
fs.writeFileSync(path.join(folder, 'rule.ts'), RULE);
fs.writeFileSync(path.join(folder, 'page.md'), PAGE);
addToList(code);
console.log(
  `Made server/core/findings/${code}. Write rule.ts and page.md, then run the generator of the pages.`,
);

/** Adds the import and the entry behind the last finding of the same family, or at the end. */
function addToList(added) {
  const file = path.join(FINDINGS, 'list.ts');
  const lines = fs.readFileSync(file, 'utf8').split('\n');
  const name = added.replace(/[-/](\w)/g, (_, letter) => letter.toUpperCase());
  const family = added.split('/')[0];
  const lastImport = lines.findLastIndex((line) => line.includes(`from './${family}/`));
  const near = lastImport < 0 ? lines.findLastIndex((line) => /^import \{ rule as/.test(line)) : lastImport;
  const neighbour = /rule as (\w+)/.exec(lines[near])?.[1];
  const last = lines.lastIndexOf('];') - 1;
  const entry = lastImport < 0 ? last : lines.findIndex((line) => line.trim() === `${neighbour},`);
  lines.splice(entry + 1, 0, `  ${name},`);
  lines.splice(near + 1, 0, `import { rule as ${name} } from './${added}/rule.ts';`);
  fs.writeFileSync(file, lines.join('\n'));
}
