import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { beyondData } from '../findings/common/beyond-span.ts';
import { restsOnFault, soundValue } from '../findings/common/held-back.ts';
import { findDiffering } from '../findings/setting/follow.ts';
import { say } from '../language/say.ts';
import type { AxisEntry } from '../model/machine.ts';
import { partsWithSheets } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import type { Span } from '../syntax/node.ts';
import { extentOf, rangeOf } from '../syntax/tree.ts';
import { formatNumber } from '../units/index.ts';
import { type Derived, showBriefly, showLevel } from '../values/derived.ts';
import { describeDerived } from './markdown.ts';

export const HINT_KINDS = [
  'scale',
  'feed',
  'margins',
  'supply',
  'levels',
  'spindle',
  'handwheel',
  'settings',
  'records',
] as const;

/** Kinds of inline numbers; each can be switched off. */
export type HintKind = (typeof HINT_KINDS)[number];

/** A number shown in the text, behind what it belongs to. */
export interface InlayHint {
  readonly offset: number;
  readonly label: string;
  readonly kind: HintKind;
  /** Markdown with the working. */
  readonly tooltip: string;
  /** The address of the value that it shows. */
  readonly address: string;
}

/** The inline numbers within a stretch of the text. */
export function listInlayHints(
  analysis: Analysis,
  from: number,
  to: number,
  kinds: ReadonlySet<HintKind>,
): InlayHint[] {
  if (analysis.kind !== 'machine') return [];
  const sources = [
    axisHints,
    marginHints,
    supplyHints,
    levelHints,
    spindleHints,
    handwheelHints,
    settingHints,
    recordHints,
  ];
  const hints = sources.flatMap((source) => [...source(analysis)]);
  return hints
    .filter((hint) => kinds.has(hint.kind) && from <= hint.offset && hint.offset <= to)
    .sort((a, b) => a.offset - b.offset);
}

function* axisHints(analysis: MachineAnalysis): Generator<InlayHint> {
  for (const axis of analysis.machine.axes.values()) {
    const offset = behindAxis(analysis, axis);
    if (offset === undefined) continue;
    const scale = soundValue(analysis, `axes.${axis.name}.pulses-per-length`);
    if (scale) yield hint(analysis, offset, 'scale', scale, scale.shown);
    const feed = soundValue(analysis, `axes.${axis.name}.top-feed`);
    if (feed) yield hint(analysis, offset, 'feed', feed, say`top feed ${showBriefly(feed)} (${feed.limit})`);
    const torque = soundValue(analysis, `axes.${axis.name}.torque-margin`);
    if (torque) yield hint(analysis, offset, 'margins', torque, say`torque × ${showBriefly(torque)}`);
  }
}

/** Behind the letter of an axis that is written over several lines, behind the whole axis where it is one line. */
function behindAxis({ tree }: MachineAnalysis, axis: AxisEntry): number | undefined {
  const { node } = axis.fields;
  const key = rangeOf(tree, axis.key);
  if (!key) return undefined;
  return node?.flow ? extentOf(tree, node).to : key.to + 1;
}

const TIMES = /^axes\..+\.timing\.[a-z]+-margin$|^spindle\.wait-margin$/;

/** Behind each value that a margin of time rests on: the smallest margin of the axes that use it. */
function* marginHints(analysis: MachineAnalysis): Generator<InlayHint> {
  const smallest = new Map<Span, Derived>();
  for (const value of analysis.values.byAddress.values()) {
    if (!TIMES.test(value.address)) continue;
    const given = value.inputs[0];
    if (!given?.at || given.file !== analysis.file || restsOnFault(analysis, value)) continue;
    const other = smallest.get(given.at);
    if (!other || value.si < other.si) smallest.set(given.at, value);
  }
  for (const [at, value] of smallest) {
    const offset = rangeOf(analysis.tree, at)?.to;
    const name = value.address.split('.').at(-1)?.replace('-margin', '') ?? '';
    if (offset === undefined) continue;
    yield hint(
      analysis,
      offset,
      'margins',
      value,
      say`${name} margin ${value.shown}${shareOf(analysis, value)}`,
    );
  }
}

/** What a margin is of what is asked for, in percent; empty where nothing is asked for. */
function shareOf(analysis: MachineAnalysis, { address }: Derived): string {
  const share = analysis.values.byAddress.get(address.replace(/-margin$/, '-share'));
  return share ? ` (${formatNumber(Math.round(share.value))} %)` : '';
}

/** Behind the name of each load: the voltage that reaches it; behind that of each supply: what it feeds. */
function* supplyHints(analysis: MachineAnalysis): Generator<InlayHint> {
  for (const part of analysis.machine.parts.values()) {
    const value = soundValue(analysis, `parts.${part.name}.supply-voltage`);
    const key = rangeOf(analysis.tree, part.key);
    if (value && key) yield hint(analysis, key.to + 1, 'supply', value, say`gets ${value.shown}`);
    const load = soundValue(analysis, `parts.${part.name}.load`);
    const share = soundValue(analysis, `parts.${part.name}.load-share`);
    if (load && key) {
      const ofRated = share ? `, ${showBriefly(share)}` : '';
      yield hint(analysis, key.to + 1, 'supply', share ?? load, say`feeds ${showBriefly(load)}${ofRated}`);
    }
  }
}

/** Behind the link that ends at an input: what the input sees at rest and operated. */
function* levelHints(analysis: MachineAnalysis): Generator<InlayHint> {
  for (const { part, sheet } of partsWithSheets(analysis.machine)) {
    for (const circuit of sheet.circuits.values()) {
      const rest = soundValue(analysis, `circuits.${part.name}.${circuit.name}.rest`);
      const operated = soundValue(analysis, `circuits.${part.name}.${circuit.name}.operated`);
      const signal = circuit.ends[0]?.text;
      if (!rest || !operated || signal === undefined) continue;
      const offset = behindEnd(analysis, part.name, signal);
      const label = `${showLevel(rest)} / ${showLevel(operated)}`;
      if (offset !== undefined) yield hint(analysis, offset, 'levels', operated, label);
    }
  }
}

/** Behind the wanted top speed: what the full signal gives; behind the reading that is farthest off: its error. */
function* spindleHints(analysis: MachineAnalysis): Generator<InlayHint> {
  const top = soundValue(analysis, 'spindle.top-speed');
  const volts = soundValue(analysis, 'spindle.volts-per-1000rpm');
  const wanted = analysis.machine.fields.child('spindle').quantity('top-speed')?.at;
  if (top) yield* hintBehind(analysis, wanted, 'spindle', top, say`full signal ${showBriefly(top)}`);
  if (volts) yield* hintBehind(analysis, wanted, 'spindle', volts, say`${showBriefly(volts)} for 1000 rpm`);
  const error = soundValue(analysis, 'spindle.reading-error');
  if (error)
    yield* hintBehind(analysis, error.inputs[0]?.at, 'spindle', error, say`off by ${showBriefly(error)}`);
}

/** Behind the step of the handwheel: the feeds that a spin asks for. */
function* handwheelHints(analysis: MachineAnalysis): Generator<InlayHint> {
  const step = analysis.machine.fields.child('handwheel').quantity('step')?.at;
  for (const times of [1, 10, 100]) {
    const feed = soundValue(analysis, `handwheel.feed-at-${times}`);
    if (feed) yield* hintBehind(analysis, step, 'handwheel', feed, `×${times}: ${showBriefly(feed)}`);
  }
}

/** Behind a setting that differs from what follows: what it should be. */
function* settingHints(analysis: MachineAnalysis): Generator<InlayHint> {
  for (const { keyed, wanted, change } of findDiffering(analysis)) {
    if (keyed.origin === 'set')
      yield* hintBehind(
        analysis,
        keyed.scalar,
        'settings',
        wanted,
        say`wants ${String(beyondData(keyed, wanted).beyond ?? change.text)}`,
      );
  }
}

/** Behind the newest measured travel of each axis: how far it is off; behind a measured play: what it asks for. */
function* recordHints(analysis: MachineAnalysis): Generator<InlayHint> {
  for (const axis of analysis.machine.axes.keys()) {
    const error = soundValue(analysis, `axes.${axis}.measured-error`);
    if (error)
      yield* hintBehind(analysis, error.inputs[0]?.at, 'records', error, say`off by ${showBriefly(error)}`);
    const backlash = soundValue(analysis, `axes.${axis}.corrected-backlash`);
    if (backlash)
      yield* hintBehind(
        analysis,
        backlash.inputs[1]?.at,
        'records',
        backlash,
        say`makes ${showBriefly(backlash)}`,
      );
  }
}

function* hintBehind(
  analysis: MachineAnalysis,
  at: Span | undefined,
  kind: HintKind,
  value: Derived,
  label: string,
): Generator<InlayHint> {
  const offset = at && rangeOf(analysis.tree, at)?.to;
  if (offset !== undefined) yield hint(analysis, offset, kind, value, label);
}

/** Behind a terminal's name in the first link that ends there. */
function behindEnd({ nets, tree }: MachineAnalysis, part: string, terminal: string): number | undefined {
  const link = nets.linksAt(terminalId(part, terminal))[0];
  const end = link && [link.from, link.to].find((each) => each.part === part && each.terminal === terminal);
  return end && rangeOf(tree, end.at)?.to;
}

function hint(
  analysis: MachineAnalysis,
  offset: number,
  kind: HintKind,
  value: Derived,
  label: string,
): InlayHint {
  return {
    offset,
    kind,
    label,
    address: value.address,
    get tooltip() {
      return describeDerived([value], analysis).join('');
    },
  };
}
