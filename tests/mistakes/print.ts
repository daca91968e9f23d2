/**
 * Prints how the corpus of mistakes fares, class by class: `npm run mistakes`. With words behind it, only the classes
 * and findings that have one of them in their name, and every mistake of them.
 */
import type { Verdict } from './judge.ts';
import { tryAll } from './try-all.ts';

const words = process.argv.slice(2);
const trials = tryAll();
const verdicts = trials
  .flatMap((trial) => trial.verdicts)
  .filter(({ mistake: { class: name, finding, example } }) =>
    words.every((word) => `${name} ${finding} ${example}`.includes(word)),
  );

for (const { example, clean } of trials) {
  const said = clean.map(({ severity, code, line }) => `${severity} ${code} in line ${line}`);
  console.log(`${example}, clean: ${said.join(', ') || 'nothing'}`);
}

console.log(`\n${row('class', 'made', 'caught', 'at the line', 'extra')}`);
for (const [name, ofClass] of byClass(verdicts)) {
  console.log(row(name, ...count(ofClass)));
  for (const verdict of ofClass) for (const line of complaints(verdict)) console.log(`    ${line}`);
}
console.log(row(`all ${byClass(verdicts).size} classes`, ...count(verdicts)));
const unexplained = verdicts.flatMap((verdict) => verdict.unexplained).length;
console.log(`${unexplained} extra findings without a reason`);
if (verdicts.some((verdict) => complaints(verdict).length > 0)) process.exitCode = 1;

function byClass(all: readonly Verdict[]): Map<string, Verdict[]> {
  const classes = new Map<string, Verdict[]>();
  for (const verdict of all) {
    const name = verdict.mistake.class;
    classes.set(name, [...(classes.get(name) ?? []), verdict]);
  }
  return classes;
}

function count(some: readonly Verdict[]): string[] {
  const caught = some.filter(({ isCaught }) => isCaught);
  const placed = some.filter(({ isPlaced }) => isPlaced);
  const extra = some.flatMap((verdict) => verdict.extra);
  return [some, caught, placed, extra].map(({ length }) => String(length));
}

function complaints({ mistake, isCaught, isPlaced, unexplained, unneeded, extra }: Verdict): string[] {
  const { example, line, typed, forgotten, added } = mistake;
  const what = `${example} '${line}' ${typed ?? (added === undefined ? `forgotten ${forgotten}` : `added ${added}`)}`;
  return [
    ...(isCaught ? [] : [`not caught: ${what}, which should give ${mistake.finding}`]),
    ...(isCaught && !isPlaced ? [`in another line: ${what}: ${mistake.finding}`] : []),
    ...(isCaught ? unexplained : extra).map(
      (finding) => `also said: ${what}: ${finding.file}:${finding.line} ${finding.code} ${finding.message}`,
    ),
    ...unneeded.map((code) => `accepted, but not said: ${what}: ${code}`),
  ];
}

function row(name: string, ...figures: readonly string[]): string {
  return [name.padEnd(58), ...figures.map((figure) => figure.padStart(12))].join('');
}
