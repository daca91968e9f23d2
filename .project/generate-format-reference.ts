/** Makes docs/format.md, the reference of the two kinds of file, from the schemas. */
import {
  AXES,
  CIRCUIT_KINDS,
  CLASSES,
  FACTS_BY_CLASS,
  LINEAR_AXES,
  MEANINGS,
  ROLES,
  ROTARY_AXES,
} from '../schemas/index.ts';
import type { MapShape, Shape } from '../server/core/shape/shape.ts';
import {
  cableShape,
  linkShape,
  machineShape,
  projectShape,
  sheetShape,
} from '../server/core/shape/shapes.ts';
import { listUnits, nameDimension } from '../server/core/units/index.ts';
import { blocks, code, codes, table } from '../tests/support/markdown.ts';
import { EXAMPLE_MACHINE, EXAMPLE_SHEET } from './reference/examples.ts';
import { describeMap } from './reference/keys.ts';
import { writeGenerated } from './write-generated.ts';

const INTRODUCTION = `# The format

<!-- Made by .project/generate-format-reference.ts from the schemas. Do not edit. -->

A definition is plain text in two kinds of YAML file. **\`NAME.machine.yaml\`** describes one machine: its parts, how
they are wired, and how it moves. **\`NAME.part.yaml\`** is a part sheet: the facts of one model of part, read once from
its datasheet and used by any number of machines. Sheets of generic parts ship with the tool and are named
\`generic/…\`.

Almost nothing is compulsory. A machine needs its name, a sheet its name and its class; whatever else is missing is
asked for where something cannot be computed without it. A key that the format does not have is an error, and the
nearest one is offered.

> Mains, moving machinery and stored energy can kill. A definition that is checked is not a machine that is safe: local
> codes, the makers' manuals and licensed practice come first.`;

const TEXT_RULES = `## Rules of the text

- Comments and layout are yours. A fix touches the value that it changes and nothing else.
- The text is YAML 1.2. \`yes\`, \`no\`, \`on\` and \`off\` are words, not truth values, and so is the axis \`Y\`. A key may
  stand only once in its map.
- Names of parts, cables and circuits are your own; names of parts and circuits have no blanks, dots or commas.
- Terminals and settings keep the spelling printed on the part, \`+\` and \`-\` included.
- A sheet is found beside the machine, by a relative path inside the workspace, or in the library that ships.
- \`format: 1\` among the first lines names the version of the format. Left out, it is 1.`;

const QUANTITY_RULES = `## Quantities

A quantity is a number and a unit in one value: \`24 V\`, \`500 ns\`, \`0.25 in\`, \`320 /mm\`, \`500 mm/s2\`, \`3 N.m\`,
\`15 %\`. A span has two numbers and one unit: \`18..32 V\`; where a span is taken, one value alone will do.

- The unit is always written. A bare number is an error, and the units that fit are offered, likeliest first.
- Capitals matter: \`mA\` is a thousandth of an ampere and \`MA\` a million, so \`Mhz\`, \`KHz\` and \`ma\` are explained.
- The decimal sign is a point. \`1,5 mm\` is explained, not guessed.
- The kind of quantity is checked (a length is no voltage), then its size for that key: a direction lead of \`500 ms\` is
  a thousandfold slip, and \`500 us\` and \`500 ns\` are offered.
- Every unit of the right kind is taken; the tables below name those that are offered first.`;

const LINKS = `A link goes from one terminal to another: \`panel.XP -> drive-x.PUL-\`. The part stands before the dot, the terminal
after it. One end may go to several, \`panel.5V -> drive-x.PUL+, drive-x.DIR+\`, which is one link each. The letter code
of a wire colour (IEC 60757) may follow, as in \`drive-x.A+ -> motor-x.A+  BN\`. \`mains\` is a part that is always there.`;

/** The text of the reference by its path; always the same for the same schemas. */
export function generateFormatReference(): Map<string, string> {
  const text = blocks(
    INTRODUCTION,
    `## In short`,
    `A machine, \`sundial-engraver.machine.yaml\`:`,
    `\`\`\`yaml\n${EXAMPLE_MACHINE}\`\`\``,
    `Its controller's sheet, \`sheets/one-axis-panel.part.yaml\`:`,
    `\`\`\`yaml\n${EXAMPLE_SHEET}\`\`\``,
    QUANTITY_RULES,
    describeUnits(),
    TEXT_RULES,
    describeMachine(),
    describeSheet(),
    describeCircuits(),
    describeRoles(),
    describeSettings(),
    describeFacts(),
    describeProject(),
  );
  return new Map([['docs/format.md', `${text}\n`]]);
}

/** Every dimension that some key takes, with all the units in which it can be written. */
function describeUnits(): string {
  const used = new Set<Parameters<typeof listUnits>[0]>(['per-length', 'per-angle']);
  const walk = (shape: Shape): void => {
    if (shape.kind === 'leaf' && (shape.leaf.kind === 'quantity' || shape.leaf.kind === 'span')) {
      for (const name of [shape.leaf.dimension].flat()) used.add(name);
    }
    for (const below of childrenOf(shape)) walk(below);
  };
  walk(machineShape);
  const rows = [...used]
    .map((name) => [nameDimension(name).replace(/^an? /, ''), codes(listUnits(name))])
    .sort(([a = ''], [b = '']) => (a < b ? -1 : 1));
  return blocks(
    table(['kind of quantity', 'units'], rows),
    'Others can be built from these, such as `kgf.cm` or `g.mm2`.',
  );
}

function childrenOf(shape: Shape): readonly Shape[] {
  switch (shape.kind) {
    case 'map':
      return [...shape.keys.values()].map((key) => key.shape);
    case 'kinds':
      return [...shape.kinds.values()];
    case 'entries':
      return [shape.value];
    case 'list':
      return [shape.item];
    case 'either':
      return shape.branches;
    case 'leaf':
      return [];
  }
}

/** The map under a key, through lists, entries and unions. */
function mapUnder(shape: Shape, ...path: readonly string[]): MapShape {
  const [key, ...rest] = path;
  if (shape.kind === 'map') {
    const below = key === undefined ? undefined : shape.keys.get(key)?.shape;
    return below ? mapUnder(below, ...rest) : shape;
  }
  const [below] = childrenOf(shape);
  if (!below) throw new Error(`no map under ${path.join('.')}`);
  return mapUnder(below, ...path);
}

function describeMachine(): string {
  const section = (title: string, about: string, shape: MapShape) =>
    blocks(`### ${title}`, about, describeMap(shape));
  const part = (...path: string[]) => mapUnder(machineShape, ...path);
  const nested = (axis: string, key: string) =>
    blocks(`#### ${code(key)}`, describeMap(part('axes', axis, key)));
  return blocks(
    '## A machine',
    describeMap(machineShape),
    section('`conventions`', '', part('conventions')),
    section(
      '`parts`',
      'Every physical part, by a name of your own. An entry names a sheet, or carries the facts itself with the keys of [a part sheet](#a-part-sheet).',
      part('parts'),
    ),
    blocks(
      '### `wiring`',
      LINKS,
      '#### A link with its wire',
      describeMap(linkShape),
      '#### A cable',
      describeMap(cableShape),
    ),
    blocks('### `axes`', axesWords()),
    blocks('#### A linear axis', describeMap(part('axes', 'X'))),
    ...['screw', 'belt', 'rack'].map((key) => nested('X', key)),
    blocks('#### A rotary axis', describeMap(part('axes', 'A'))),
    blocks(
      '#### `homing` and `switches`',
      describeMap(part('axes', 'X', 'homing')),
      describeMap(part('axes', 'X', 'switches')),
    ),
    section('`spindle`', '', part('spindle')),
    blocks('#### `readings`', describeMap(part('spindle', 'readings'))),
    section('`handwheel`', '', part('handwheel')),
    blocks('### `records`', 'What was measured and tried, newest last.', ...describeRecords()),
  );
}

/** Each kind of record under the words that its schema says of it. */
function describeRecords(): string[] {
  const list = machineShape.keys.get('records')?.shape;
  const item = list?.kind === 'list' ? list.item : undefined;
  const kinds = item?.kind === 'either' ? item.branches : [];
  return kinds.flatMap((kind) =>
    kind.kind === 'map' ? [`#### ${kind.doc.replace(/\.$/, '')}`, describeMap(kind)] : [],
  );
}

function axesWords(): string {
  return `The letters are those of ISO 841: ${codes(LINEAR_AXES)} are linear and ${codes(ROTARY_AXES)} rotary. Two motors that move one axis are one axis with two drives, in lists. \`far\` is the end of travel in the plus direction of the axis, \`near\` the end in its minus direction. The carrier of a linear axis is a screw, a belt or a rack; that of a rotary axis a worm, or \`gearing\` alone.`;
}

function describeSheet(): string {
  const classes = Object.entries(CLASSES).map(([word, doc]) => [code(word), doc]);
  return blocks(
    '## A part sheet',
    describeMap(sheetShape),
    `\`terminals\` are lists in groups, as they stand on the part: \`power: [DC+, DC-, PE]\`.`,
    '### Classes',
    table(['class', 'what it is'], classes),
  );
}

function describeCircuits(): string {
  const kinds = mapsOfKinds();
  const rows = [...CIRCUIT_KINDS].map(([name, kind]) => [
    code(name),
    kind.group,
    kind.terminals.join(', '),
    kind.doc,
  ]);
  const details = [...kinds].flatMap(([name, shape]) => {
    const figures = describeMap(shape, [name, 'does', 'about']);
    return figures === '' ? [] : [blocks(`#### ${code(name)}`, CIRCUIT_KINDS.get(name)?.doc ?? '', figures)];
  });
  return blocks(
    '## Circuits',
    'Each entry of `circuits` names exactly one kind with the terminals that it stands between, then its figures: `x-far: { pulled-down-in: [XF, C-], does: limit X far, on-above: 15 V, off-below: 5 V }`. Timing figures sit on the circuit that has them. Every kind also takes `does` (see [Uses](#uses-does)) and `about`, a line from the datasheet.',
    table(['kind', 'group', 'terminals, in order', 'what it is'], rows),
    '### Figures of each kind',
    ...details,
  );
}

function mapsOfKinds(): ReadonlyMap<string, MapShape> {
  const circuits = sheetShape.keys.get('circuits')?.shape;
  const value = circuits?.kind === 'entries' ? circuits.value : undefined;
  return value?.kind === 'kinds' ? value.kinds : new Map();
}

function describeRoles(): string {
  const axis = { none: '', optional: 'an axis, left out on a drive', needed: 'an axis' };
  const rows = [...ROLES].map(([word, role]) => [
    code(word),
    [axis[role.axis], role.last.length > 0 ? codes(role.last) : '']
      .filter((each) => each !== '')
      .join(', then '),
    role.doc,
  ]);
  return blocks(
    '## Uses (`does`)',
    `\`does\` says what the part uses a circuit for: \`pulse X\`, \`limit X far\`, \`emergency-stop\`. An axis is one of ${codes(AXES)}.`,
    table(['use', 'followed by', 'what it is'], rows),
  );
}

function describeSettings(): string {
  const rows = Object.entries(MEANINGS).map(([word, doc]) => [code(word), doc]);
  return blocks(
    '## Settings',
    'Each entry of `settings` stands for something that can be set on the part, by the name or number that it has there. How `span`, `step` and `default` are read depends on the meaning: as a quantity, a whole number, or a word.',
    describeMap(mapUnder(sheetShape, 'settings')),
    '### Meanings (`is`)',
    table(['meaning', 'what it is'], rows),
  );
}

function describeFacts(): string {
  const rows = Object.entries(FACTS_BY_CLASS).map(([name, keys]) => [
    name === 'any' ? 'any part' : code(name),
    codes(keys),
  ]);
  return blocks(
    '## Facts',
    'What is neither electrical nor can be set. Which facts matter depends on the class of the part:',
    table(['class', 'facts'], rows),
    describeMap(mapUnder(sheetShape, 'facts')),
  );
}

function describeProject(): string {
  return blocks(
    '## A project',
    'The file `.fettle.yaml` holds for every definition in its folder and the folders in it; of several, the nearest one alone. Editor and command line read it alike. A single finding is silenced where it stands, by a comment: `# fettle silence wire/drop: the loom stays` behind a line or alone above it, `# fettle silence-file wire/drop` for a file.',
    describeMap(projectShape),
  );
}

if (import.meta.main) writeGenerated(generateFormatReference());
