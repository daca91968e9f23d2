import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { beyondData } from '../findings/common/beyond-span.ts';
import { soundValue } from '../findings/common/held-back.ts';
import { findDiffering } from '../findings/setting/follow.ts';
import { say } from '../language/say.ts';
import type { End } from '../model/link.ts';
import type { AxisEntry } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import type { Link } from '../model/wiring.ts';
import type { Span } from '../syntax/node.ts';
import { extentOf, rangeOf } from '../syntax/tree.ts';
import { formatNumber } from '../units/index.ts';
import { PULSE_MARGINS } from '../values/axis-timing.ts';
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
  const stretch = { analysis, from, to };
  return sources
    .flatMap((source) => [...source(stretch)])
    .filter((hint) => kinds.has(hint.kind))
    .sort((a, b) => a.offset - b.offset);
}

/**
 * The stretch of the text that somebody looks at. Editors ask at every key and whenever somebody scrolls, so a source first
 * sees what stands there and only then asks what is computed of it.
 */
interface Stretch {
  readonly analysis: MachineAnalysis;
  readonly from: number;
  readonly to: number;
}

function isWithin({ from, to }: Stretch, offset: number | undefined): offset is number {
  return offset !== undefined && from <= offset && offset <= to;
}

/** The end of a place in the text, or so many characters behind it; undefined where that is not in the stretch. */
function behind(stretch: Stretch, at: Span | undefined, characters = 0): number | undefined {
  const range = at && rangeOf(stretch.analysis.tree, at);
  const offset = range && range.to + characters;
  return isWithin(stretch, offset) ? offset : undefined;
}

function* axisHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  for (const axis of analysis.machine.axes.values()) {
    const offset = behindAxis(stretch, axis);
    if (offset === undefined) continue;
    const scale = soundValue(analysis, `axes.${axis.name}.pulses-per-length`);
    if (scale) yield hint(offset, 'scale', scale, scale.shown);
    const feed = soundValue(analysis, `axes.${axis.name}.top-feed`);
    if (feed) yield hint(offset, 'feed', feed, say`top feed ${showBriefly(feed)} (${feed.limit})`);
    const torque = soundValue(analysis, `axes.${axis.name}.torque-margin`);
    if (torque) yield hint(offset, 'margins', torque, say`torque × ${showBriefly(torque)}`);
  }
}

/** Behind the letter of an axis that is written over several lines, behind the whole axis where it is one line. */
function behindAxis(stretch: Stretch, { key, fields: { node } }: AxisEntry): number | undefined {
  if (!node?.flow) return behind(stretch, key, 1);
  const { to } = extentOf(stretch.analysis.tree, node);
  return isWithin(stretch, to) ? to : undefined;
}

/** Behind each value that a margin of time rests on: the smallest margin of the axes that use it. */
function* marginHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  const smallest = new Map<Span, Derived>();
  for (const address of marginAddresses(analysis.machine)) {
    const value = soundValue(analysis, address);
    const given = value?.inputs[0];
    if (!value || !given?.at || given.file !== analysis.file) continue;
    const other = smallest.get(given.at);
    if (!other || value.si < other.si) smallest.set(given.at, value);
  }
  for (const [at, value] of smallest) {
    const offset = behind(stretch, at);
    const name = value.address.split('.').at(-1)?.replace('-margin', '') ?? '';
    if (offset === undefined) continue;
    yield hint(offset, 'margins', value, say`${name} margin ${value.shown}${shareOf(analysis, value)}`);
  }
}

function marginAddresses({ axes }: Machine): string[] {
  const ofAxes = [...axes.keys()].flatMap((axis) =>
    PULSE_MARGINS.map((margin) => `axes.${axis}.timing.${margin}`),
  );
  return [...ofAxes, 'spindle.wait-margin'];
}

/** What a margin is of what is asked for, in percent; empty where nothing is asked for. */
function shareOf(analysis: MachineAnalysis, { address }: Derived): string {
  const share = analysis.values.byAddress.get(address.replace(/-margin$/, '-share'));
  return share ? ` (${formatNumber(Math.round(share.value))} %)` : '';
}

/** Behind the name of each load: the voltage that reaches it; behind that of each supply: what it feeds. */
function* supplyHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  for (const part of analysis.machine.parts.values()) {
    const offset = behind(stretch, part.key, 1);
    if (offset === undefined) continue;
    const value = soundValue(analysis, `parts.${part.name}.supply-voltage`);
    if (value) yield hint(offset, 'supply', value, say`gets ${value.shown}`);
    const load = soundValue(analysis, `parts.${part.name}.load`);
    const share = soundValue(analysis, `parts.${part.name}.load-share`);
    if (load) {
      const ofRated = share ? `, ${showBriefly(share)}` : '';
      yield hint(offset, 'supply', share ?? load, say`feeds ${showBriefly(load)}${ofRated}`);
    }
  }
}

/** Behind the first link that ends at the signal of an input: what the input sees at rest and operated. */
function* levelHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  for (const link of analysis.machine.links) {
    for (const { part, terminal, at } of endsOf(link)) {
      const offset = behind(stretch, at);
      if (offset === undefined || analysis.nets.linksAt(terminalId(part, terminal))[0] !== link) continue;
      for (const circuit of analysis.machine.parts.get(part)?.sheet?.circuits.values() ?? []) {
        if (circuit.ends[0]?.text !== terminal) continue;
        const rest = soundValue(analysis, `circuits.${part}.${circuit.name}.rest`);
        const operated = soundValue(analysis, `circuits.${part}.${circuit.name}.operated`);
        if (!rest || !operated) continue;
        yield hint(offset, 'levels', operated, `${showLevel(rest)} / ${showLevel(operated)}`);
      }
    }
  }
}

/** Both ends of a link; one of a link from a terminal to itself. */
function endsOf({ from, to }: Link): readonly End[] {
  return from.part === to.part && from.terminal === to.terminal ? [from] : [from, to];
}

/** Behind the wanted top speed: what the full signal gives; behind the reading that is farthest off: its error. */
function* spindleHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  const top = soundValue(analysis, 'spindle.top-speed');
  const volts = soundValue(analysis, 'spindle.volts-per-1000rpm');
  const wanted = analysis.machine.fields.child('spindle').quantity('top-speed')?.at;
  if (top) yield* hintBehind(stretch, wanted, 'spindle', top, say`full signal ${showBriefly(top)}`);
  if (volts) yield* hintBehind(stretch, wanted, 'spindle', volts, say`${showBriefly(volts)} for 1000 rpm`);
  const error = soundValue(analysis, 'spindle.reading-error');
  if (error)
    yield* hintBehind(stretch, error.inputs[0]?.at, 'spindle', error, say`off by ${showBriefly(error)}`);
}

/** Behind the step of the handwheel: the feeds that a spin asks for. */
function* handwheelHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  const step = analysis.machine.fields.child('handwheel').quantity('step')?.at;
  for (const times of [1, 10, 100]) {
    const feed = soundValue(analysis, `handwheel.feed-at-${times}`);
    if (feed) yield* hintBehind(stretch, step, 'handwheel', feed, `×${times}: ${showBriefly(feed)}`);
  }
}

/** Behind a setting that differs from what follows: what it should be. */
function* settingHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  for (const { keyed, wanted, change } of findDiffering(analysis)) {
    const offset = behind(stretch, keyed.scalar);
    if (keyed.origin !== 'set' || offset === undefined) continue;
    const label = say`wants ${String(beyondData(keyed, wanted).beyond ?? change.text)}`;
    yield hint(offset, 'settings', wanted, label);
  }
}

/** Behind the newest measured travel of each axis: how far it is off; behind a measured play: what it asks for. */
function* recordHints(stretch: Stretch): Generator<InlayHint> {
  const { analysis } = stretch;
  for (const axis of analysis.machine.axes.keys()) {
    const error = soundValue(analysis, `axes.${axis}.measured-error`);
    if (error)
      yield* hintBehind(stretch, error.inputs[0]?.at, 'records', error, say`off by ${showBriefly(error)}`);
    const backlash = soundValue(analysis, `axes.${axis}.corrected-backlash`);
    if (backlash)
      yield* hintBehind(
        stretch,
        backlash.inputs[1]?.at,
        'records',
        backlash,
        say`makes ${showBriefly(backlash)}`,
      );
  }
}

function* hintBehind(
  stretch: Stretch,
  at: Span | undefined,
  kind: HintKind,
  value: Derived,
  label: string,
): Generator<InlayHint> {
  const offset = behind(stretch, at);
  if (offset !== undefined) yield hint(offset, kind, value, label);
}

/** What is told of the values that hints show, by their addresses: Markdown with the working of each. */
export function describeHints(analysis: Analysis, addresses: readonly string[]): ReadonlyMap<string, string> {
  const values = [...new Set(addresses)].flatMap((address) => analysis.values.byAddress.get(address) ?? []);
  const texts = describeDerived(values, analysis);
  return new Map(values.map(({ address }, place) => [address, texts[place] ?? '']));
}

function hint(offset: number, kind: HintKind, value: Derived, label: string): InlayHint {
  return {
    offset,
    kind,
    label,
    address: value.address,
  };
}
