import type { MachineAnalysis } from '../../analysis.ts';
import { terminalId } from '../../circuits/nets.ts';
import { waysOf } from '../../circuits/ways.ts';
import { say } from '../../language/say.ts';
import { wireOf } from '../../model/link-wire.ts';
import { describeWire } from '../../model/wire-text.ts';
import type { Link } from '../../model/wiring.ts';
import type { Given } from '../../shape/fields.ts';
import type { Wire } from '../../units/index.ts';
import type { Derived } from '../../values/derived.ts';
import { nameWires } from '../../values/wires.ts';
import { isFaulty, restsOnFault } from '../common/held-back.ts';

/** A link whose wire is written down, with what was computed of it. */
export interface WireAt {
  readonly link: Link;
  /** The place of the link among the ways of the machine. */
  readonly place: number;
  /** What a message calls it: `wire W14`, `a core of cable K3`, `the wire from a.b to c.d`. */
  readonly shown: string;
  readonly wire: Given<Wire>;
  readonly value: (name: string) => Derived | undefined;
}

const kept = new WeakMap<MachineAnalysis, readonly WireAt[]>();

/** The links whose wire is written down and not at fault, in the order of the text. */
export function wiresOf(analysis: MachineAnalysis): readonly WireAt[] {
  let wires = kept.get(analysis);
  if (!wires) {
    wires = listWires(analysis);
    kept.set(analysis, wires);
  }
  return wires;
}

function listWires(analysis: MachineAnalysis): WireAt[] {
  const names = nameWires(analysis.machine.links);
  return [...waysOf(analysis.machine).all.entries()].flatMap(([place, { link }]) => {
    const wire = link && wireOf(link);
    if (!link || !wire || isFaulty(analysis, wire.at)) return [];
    const base = `wires.${names.get(link) ?? ''}`;
    const value = (name: string) => {
      const derived = analysis.values.byAddress.get(`${base}.${name}`);
      return derived && !restsOnFault(analysis, derived) ? derived : undefined;
    };
    return [{ link, place, shown: showLink(link), wire, value }];
  });
}

/** What a message calls a link. */
export function showLink(link: Link): string {
  if (link.label !== undefined) return say`wire ${link.label}`;
  if (link.cable !== undefined) return say`a core of cable ${link.cable}`;
  return say`the wire from ${terminalId(link.from.part, link.from.terminal)} to ${terminalId(link.to.part, link.to.terminal)}`;
}

/** A text with a capital first letter, as at the start of a sentence. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** True for a wire that carries more than it may; what else could be said of its size follows from that. */
export function isOverloaded({ value }: WireAt): boolean {
  const [current, capacity] = [value('current'), value('capacity')];
  return current !== undefined && capacity !== undefined && current.si > capacity.si * (1 + 1e-9);
}

/** The size of a wire without its colour, for messages. */
export function sizeOf({ wire, link }: WireAt): string {
  return wire.value.gauge || describeWire(link);
}
