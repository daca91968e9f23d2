/** Makes docs/values.md, the reference of derived values, from what the engine says of the examples and of what their readers are told to try. */
import { createFettle } from '../server/core/fettle.ts';
import { applyTry, readTries } from '../tests/core/examples/tries.ts';
import { readExamples } from '../tests/support/examples.ts';
import { blocks, code, table } from '../tests/support/markdown.ts';
import { worldOf } from '../tests/support/world.ts';
import { collectValues, type ValueEntry } from './reference/values.ts';
import { writeGenerated } from './write-generated.ts';

const INTRODUCTION = `# Derived values

<!-- Made by .project/generate-values-reference.ts from what the engine computes of the examples. Do not edit. -->

Every number that Fettle shows is one of these. Each has an address, under which \`fettle explain\` tells how it comes
about on your machine; hovers, inline numbers, the wiring summary and the JSON report print the same number. In an
address \`AX\` is an axis, \`PART\`, \`CIRCUIT\` and \`SETTING\` are names of the machine and its sheets, and \`WIRE\` is the
label of a link, or where it has none its two ends, as in \`wires.psu.V+:fuse.1.drop\`; others with the same ends are
called \`psu.V+:fuse.1:2\` and so on. So an address means the same wire when other links are put in above it.

Formulas are in words; where a value can come about in several ways, each is given. A source is a published one, a
definition, or says that the formula is common practice. The worked line is from an example that ships. Inside, all
figures are in SI units and unrounded; numbers are rounded when they are shown, or when a setting has decimals. The unit
beside an address is that of its \`value\` in the JSON report; an axis that is written in inches is shown in inches.`;

const IN_INCHES = 'dial-engraver';

const SECTIONS: readonly (readonly [string, string])[] = [
  ['axes', 'Axes'],
  ['spindle', 'Spindle'],
  ['handwheel', 'Handwheel'],
  ['parts', 'Supplies and loads'],
  ['circuits', 'Circuits'],
  ['wires', 'Wires'],
  ['settings', 'Settings'],
  ['records', 'Records'],
];

/** The text of the reference by its path; always the same for the same engine and examples. */
export function generateValuesReference(): Map<string, string> {
  // The one in inches comes last, so that the worked lines are metric, like the units of the addresses.
  const examples = readExamples().toSorted(
    (a, b) => Number(a.name === IN_INCHES) - Number(b.name === IN_INCHES),
  );
  const analyses = examples.flatMap((example) => {
    const text = example.files.get(example.machine) ?? '';
    const tried = readTries(example.name).map((each) => applyTry(each, text));
    return [text, ...tried].map((each) => {
      const files = new Map([...example.files, [example.machine, each]]);
      return createFettle(worldOf(files)).analyse(example.machine, each);
    });
  });
  const { values, lacks } = collectValues(analyses);
  const sections = SECTIONS.flatMap(([key, title]) => {
    const own = values.filter(({ address }) => address.split('.')[0] === key);
    return own.length === 0 ? [] : [`## ${title}`, ...own.map(describe)];
  });
  const text = blocks(
    INTRODUCTION,
    ...sections,
    '## What is not computed',
    `What cannot be computed is not guessed. \`fettle explain FILE\` and the end of the wiring summary list it for a machine
with what is lacking. On the examples, and on them as their readers are told to change them, that is:`,
    table(
      ['value', 'needs'],
      lacks.map(({ address, needs }) => [code(address), needs]),
    ),
  );
  return new Map([['docs/values.md', `${text}\n`]]);
}

function describe({ address, title, unit, formulas, sources, limits, working }: ValueEntry): string {
  const facts = [
    `${code(address)}${unit === '1' || unit === '' ? '' : `, in ${unit}`}${limits.length > 0 ? `, with the name of its limit: ${limits.join(', ')}` : ''}`,
    ...formulas.map((formula) => `= ${formula}`),
    `Source: ${sources.join('; or ')}.`,
    `For instance ${code(working)}`,
  ];
  return blocks(`### ${title}`, ...facts.map((fact) => fact.replaceAll('\n', ' ')));
}

if (import.meta.main) writeGenerated(generateValuesReference());
