import { type Analysis, type MachineAnalysis, shapeOf } from '../analysis.ts';
import { later, said, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import { sayMeaning } from '../model/meaning.ts';
import { keyedIn } from '../model/settings.ts';
import type { Setting } from '../model/sheet.ts';
import { terminalId } from '../model/terminal-id.ts';
import { shapeAlong } from '../shape/at.ts';
import { sheetShape } from '../shape/shapes.ts';
import { type Location, pathOf } from '../syntax/locate.ts';
import type { Scalar, Span } from '../syntax/node.ts';
import { findUnit } from '../units/index.ts';
import { answer } from '../values/asked/asked.ts';
import { showLevel } from '../values/derived.ts';
import { usersOf } from '../values/uses.ts';
import { codeSpan, describeDerived, escapeMarkdown } from './markdown.ts';
import { type Thing, thingAt } from './thing.ts';

/** What to show at a place, as Markdown without links or HTML of the user's. */
export interface Hover {
  readonly at: Span;
  readonly markdown: string;
}

/** Explains what stands at an offset: the thing, its computed numbers with their working, and the key's documentation. */
export function describeAt(analysis: Analysis, offset: number): Hover | undefined {
  const { thing, location } = thingAt(analysis, offset);
  if (!thing) return undefined;
  const pieces = [
    ...(analysis.kind === 'machine' ? describeThing(analysis, thing) : []),
    ...(analysis.kind === 'machine' && location.scalar
      ? [
          ...describeUses(analysis, valueOfThing(analysis, thing) ?? location.scalar),
          ...describeAsked(analysis, location),
        ]
      : []),
    ...describeKey(analysis, location),
    ...describeUnit(location, thing),
  ];
  return pieces.length > 0 ? { at: thing.at, markdown: pieces.join('\n\n---\n\n') } : undefined;
}

function describeThing(analysis: MachineAnalysis, thing: Thing): string[] {
  switch (thing.kind) {
    case 'part':
      return describePart(analysis, thing.name);
    case 'terminal':
      return describeTerminal(analysis, thing.part, thing.terminal);
    case 'axis':
      return describeAxis(analysis, thing.name);
    case 'sheet':
      return describePart(analysis, thing.part);
    case 'setting':
      return describeSetting(analysis, thing.part, thing.setting);
    case 'other':
      return [];
  }
}

function describePart(analysis: MachineAnalysis, name: string): string[] {
  const part = analysis.machine.parts.get(name);
  if (!part) return [];
  const { sheet } = part;
  const place = part.place === undefined ? '' : say`, at ${part.place}`;
  const title = sheet ? `${sheet.title || sheet.partClass}${place}` : say`Its sheet is not known yet.`;
  const numbers = ['supply-voltage', 'load', 'load-share']
    .map((value) => analysis.values.byAddress.get(`parts.${name}.${value}`))
    .filter((value) => value !== undefined);
  return [`**${escapeMarkdown(name)}**: ${escapeMarkdown(title)}`, ...describeDerived(numbers, analysis)];
}

function describeTerminal(analysis: MachineAnalysis, partName: string, name: string): string[] {
  const part = analysis.machine.parts.get(partName);
  const terminal = part?.sheet?.terminals.get(name);
  if (!part?.sheet || !terminal) return [];
  const lines = [`**${escapeMarkdown(`${partName}.${name}`)}** (${escapeMarkdown(terminal.group)})`];
  for (const circuit of part.sheet.circuits.values()) {
    if (!circuit.ends.some((end) => end.text === name)) continue;
    const does = circuit.figures.text('does')?.value;
    const doc = shapeDoc(circuit.kind);
    lines.push(
      say`- ${escapeMarkdown(circuit.name)}: ${codeSpan(circuit.kind)} between ${circuit.ends.map((end) => codeSpan(end.text)).join(', ')}${does ? say`, for ${escapeMarkdown(does)}` : ''}. ${doc}`,
    );
  }
  lines.push(...levelLines(analysis, part, name));
  const others = analysis.nets
    .terminalsOn(analysis.nets.netOf(terminalId(partName, name)))
    .filter((id) => id !== terminalId(partName, name));
  lines.push(
    '',
    others.length > 0
      ? say`Joined with ${others.slice(0, 12).map(codeSpan).join(', ')}${others.length > 12 ? say` and ${others.length - 12} more` : ''}.`
      : say`Not wired.`,
  );
  return [lines.join('\n')];
}

/** What the inputs at a terminal see in each state, as it was solved. */
function levelLines({ values }: MachineAnalysis, part: Part, terminal: string): string[] {
  const circuits = [...(part.sheet?.circuits.values() ?? [])].filter((circuit) =>
    circuit.ends.some((end) => end.text === terminal),
  );
  return circuits.flatMap((circuit) => {
    const states = STATES.flatMap(([state, words]) => {
      const value = values.byAddress.get(`circuits.${part.name}.${circuit.name}.${state}`);
      return value ? [`${said(words)} ${codeSpan(showLevel(value))}`] : [];
    });
    return states.length > 0 ? ['', say`${escapeMarkdown(circuit.name)} sees: ${states.join(', ')}.`] : [];
  });
}

const STATES = [
  ['rest', later`at rest`],
  ['operated', later`operated`],
  ['broken-wire', later`with a wire broken`],
  ['margin', later`margin`],
] as const;

function shapeDoc(kind: string): string {
  const circuits = sheetShape.keys.get('circuits')?.shape;
  const value = circuits?.kind === 'entries' ? circuits.value : undefined;
  return value?.kind === 'kinds' ? said(value.kinds.get(kind)?.doc ?? '') : '';
}

/** The numbers of an axis that people ask for first, each with its working. */
const AXIS_VALUES = [
  'pulses-per-length',
  'top-feed',
  'torque-margin',
  'pulse-rate-limit',
  'timing.lead-margin',
  'timing.on-margin',
];

function describeAxis(analysis: MachineAnalysis, name: string): string[] {
  const { byAddress } = analysis.values;
  const derived = AXIS_VALUES.flatMap((value) => byAddress.get(`axes.${name}.${value}`) ?? []);
  return describeDerived(derived, analysis);
}

function describeSetting(analysis: MachineAnalysis, part: Part, setting: Setting): string[] {
  const meaning =
    sayMeaning(setting.is) ??
    setting.fields.text('about')?.value ??
    say`Carried for the record; nothing is computed from it.`;
  const keyed = keyedIn(analysis.machine.file, part, setting);
  const now = keyed
    ? say`Now ${codeSpan(keyed.scalar.text)}${keyed.origin === 'default' ? ', as delivered' : ''}.`
    : say`Not set.`;
  const wanted = analysis.values.byAddress.get(`settings.${part.name}.${setting.name}.wanted`);
  const choices =
    setting.choices.length > 0 ? say`Choices: ${setting.choices.map(codeSpan).join(', ')}.` : '';
  const head = say`**${escapeMarkdown(setting.name)}** of ${escapeMarkdown(part.name)}: ${escapeMarkdown(meaning)}`;
  return [
    [head, `${now} ${choices}`.trim()].join('\n\n'),
    ...describeDerived(wanted ? [wanted] : [], analysis),
  ];
}

/** On the name of a setting, what is computed from its value is wanted too. */
function valueOfThing(analysis: MachineAnalysis, thing: Thing): Scalar | undefined {
  return thing.kind === 'setting'
    ? keyedIn(analysis.machine.file, thing.part, thing.setting)?.scalar
    : undefined;
}

/** How many of the values that are computed from one figure are told. */
const MOST_USES = 6;

/** The values that are computed from what is written here, directly. */
function describeUses(analysis: MachineAnalysis, scalar: Scalar): string[] {
  const uses = (usersOf(analysis.values, [scalar]).get(scalar) ?? []).filter(
    ({ address, inputs }) =>
      inputs.some(({ at, file }) => at === scalar && file === analysis.file) &&
      !(address.startsWith('settings.') && address.endsWith('.now')),
  );
  return describeDerived(uses.slice(0, MOST_USES), analysis);
}

/** Where speeds and moves are asked for: what asking for just this one does. */
const ASKED: readonly (readonly [path: RegExp, owner: string])[] = [
  [/^spindle\.(?:top-speed|least-speed|readings\.\d+\.asked)$/, 'spindle'],
  [/^axes\.[^.]+\.travel$/, 'axis'],
  [/^records\.\d+\.asked$/, 'record'],
];

function describeAsked(analysis: MachineAnalysis, { steps, scalar, onKey }: Location): string[] {
  const path = pathOf(steps).join('.');
  const found = onKey ? undefined : ASKED.find(([pattern]) => pattern.test(path))?.[1];
  if (!scalar || found === undefined) return [];
  const axis = found === 'axis' ? path.split('.')[1] : recordAxis(analysis, scalar);
  const answered = answer(
    analysis.machine,
    analysis.values,
    found === 'spindle' ? found : `axes.${axis}`,
    scalar.text,
  );
  return answered.kind === 'asked' ? describeDerived(answered.asked.derived, analysis) : [];
}

function recordAxis({ machine }: MachineAnalysis, scalar: Scalar): string | undefined {
  return machine.fields
    .items('records')
    .find((record) => record.quantity('asked')?.at === scalar)
    ?.text('axis')?.value;
}

function describeKey(analysis: Analysis, location: Location): string[] {
  const shape = shapeOf(analysis);
  const key = location.onKey ? shapeAlong(shape, pathOf(location.steps), analysis.tree.root)?.key : undefined;
  return key ? [`${codeSpan(key.name)}: ${said(key.doc)}`] : [];
}

/** The exact size of a unit, where the cursor is on a quantity with one that is not an SI unit. */
function describeUnit({ scalar, onKey }: Location, thing: Thing): string[] {
  if (!scalar || onKey || thing.kind === 'terminal' || thing.kind === 'part') return [];
  const symbol = /^[-+]?[\d.]+(?:\.\.[\d.]+)?\s*(\S+)$/.exec(scalar.text)?.[1];
  const unit = symbol === undefined ? undefined : findUnit(symbol);
  return unit && unit.symbol !== ''
    ? [
        `${codeSpan(unit.symbol)}: ${escapeMarkdown(said(unit.name))}; ${escapeMarkdown(said(unit.definition))}`,
      ]
    : [];
}
