import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { type End, readLinkText } from '../model/link.ts';
import type { Part } from '../model/machine.ts';
import type { Setting } from '../model/sheet.ts';
import { endOf } from '../names/leaf-mentions.ts';
import { pick } from '../pick.ts';
import { type Location, locate, pathOf } from '../syntax/locate.ts';
import type { Scalar, Span } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';

/** What a place in the text means. Every feature that starts from a cursor starts from this. */
export type Thing =
  | { readonly kind: 'part'; readonly name: string; readonly at: Span; readonly isDefinition: boolean }
  | { readonly kind: 'terminal'; readonly part: string; readonly terminal: string; readonly at: Span }
  | { readonly kind: 'axis'; readonly name: string; readonly at: Span; readonly isDefinition: boolean }
  | { readonly kind: 'sheet'; readonly name: string; readonly part: string; readonly at: Span }
  | {
      readonly kind: 'setting';
      readonly part: Part;
      readonly setting: Setting;
      readonly at: Span;
      readonly onValue: boolean;
    }
  | { readonly kind: 'other'; readonly at: Span };

/** A thing together with where it was found. */
export interface ThingAt {
  readonly thing: Thing | undefined;
  readonly location: Location;
}

/** Keys whose values name parts of the machine, by the section that they stand in. */
const PART_KEYS: Readonly<Record<string, readonly string[]>> = {
  axes: ['drive', 'motor', 'far', 'near', 'home'],
  spindle: ['converter', 'motor'],
  handwheel: ['part'],
};

/** Finds what stands at an offset of the text. */
export function thingAt(analysis: Analysis, offset: number): ThingAt {
  const location = locate(analysis.tree, offset);
  const { scalar } = location;
  if (!scalar) return { thing: undefined, location };
  const special = analysis.kind === 'machine' ? machineThing(analysis, location, scalar, offset) : undefined;
  return { thing: special ?? { kind: 'other', at: scalar }, location };
}

function machineThing(
  analysis: MachineAnalysis,
  location: Location,
  scalar: Scalar,
  offset: number,
): Thing | undefined {
  const path = pathOf(location.steps).map(String);
  const [section, name = '', third, fourth] = path;
  const { onKey } = location;
  if (section === 'parts') {
    if (onKey && path.length === 2) return { kind: 'part', name, at: scalar, isDefinition: true };
    if (!onKey && third === 'sheet') return { kind: 'sheet', name: scalar.text, part: name, at: scalar };
    if (third === 'set' && fourth !== undefined) return settingThing(analysis, name, fourth, scalar, !onKey);
  }
  if (section === 'axes' && onKey && path.length === 2)
    return { kind: 'axis', name, at: scalar, isDefinition: true };
  if (section === 'wiring' && !onKey) return linkThing(analysis, path, scalar, offset);
  if (section === 'records' && path.at(-1) === 'axis' && !onKey)
    return { kind: 'axis', name: scalar.text, at: scalar, isDefinition: false };
  const keys = pick(PART_KEYS, section);
  const key = path.findLast((step) => !/^\d+$/.test(step)) ?? '';
  return !onKey && keys?.includes(key)
    ? { kind: 'part', name: scalar.text, at: scalar, isDefinition: false }
    : undefined;
}

function settingThing(
  analysis: MachineAnalysis,
  name: string,
  key: string,
  at: Scalar,
  onValue: boolean,
): Thing | undefined {
  const part = analysis.machine.parts.get(name);
  const setting = part?.sheet?.settings.get(key);
  return part && setting ? { kind: 'setting', part, setting, at, onValue } : undefined;
}

function linkThing(
  analysis: MachineAnalysis,
  path: readonly string[],
  scalar: Scalar,
  offset: number,
): Thing | undefined {
  const key = path.findLast((step) => !/^\d+$/.test(step));
  if (key === 'screen') return endThing(endOf(scalar), analysis, offset);
  if (key !== 'wiring' && key !== 'link' && key !== 'links') return undefined;
  const { from, to } = readLinkText(scalar);
  const ends = from ? [from, ...to] : to;
  const end = ends.find(({ at }) => covers(analysis, at, offset));
  return end && endThing(end, analysis, offset);
}

function endThing(end: End | undefined, analysis: Analysis, offset: number): Thing | undefined {
  if (!end) return undefined;
  if (covers(analysis, end.partAt, offset))
    return { kind: 'part', name: end.part, at: end.partAt, isDefinition: false };
  return { kind: 'terminal', part: end.part, terminal: end.terminal, at: end.terminalAt };
}

function covers(analysis: Analysis, at: Span, offset: number): boolean {
  const range = rangeOf(analysis.tree, at);
  return range !== undefined && range.from <= offset && offset <= range.to;
}
