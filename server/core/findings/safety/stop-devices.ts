import type { MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { MAINS, mainsTerminals, partsOf } from '../../model/resolve.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import { type CircuitEnd, circuitEnds, endsOn, reachFrom } from '../common/conductors.ts';

/** An emergency stop device and what its contacts are in the way of. */
export interface StopDevice {
  readonly part: Part;
  /** What loses its power by it: coils and supplies, as `part.circuit`. */
  readonly cuts: readonly string[];
  /** What loses its power through the contacts of the relays among them. */
  readonly behind: readonly string[];
  /** Inputs of controllers that it only tells, by itself or by a relay, as `part.terminal`. */
  readonly tells: readonly string[];
}

/** What stops when its current is cut, whatever a controller thinks of it. */
const POWERED: ReadonlySet<string> = new Set(['coil', 'mains-in', 'power-in', 'three-phase-in']);
const INPUTS: ReadonlySet<string> = new Set(['pulled-up-in', 'pulled-down-in', 'opto-in', 'line-in']);

/** The emergency stop devices of a machine, and switches that are wired to an emergency stop input. */
export const stopDevices = fact('analysis', (analysis: MachineAnalysis): readonly StopDevice[] => {
  const sources = sourceNets(analysis);
  const telling = netsThatTell(analysis);
  return partsOf(analysis.machine).flatMap((part) => {
    const partClass = part.sheet?.partClass;
    if (partClass !== 'emergency-stop' && partClass !== 'switch') return [];
    // Of thousands of switches the few are followed that can come to a stop input at all.
    if (partClass === 'switch' && !contactsOf(part).some((end) => telling.has(analysis.nets.netOf(end))))
      return [];
    const device = traceDevice(analysis, part, sources);
    return partClass === 'emergency-stop' || device.tells.length > 0 ? [device] : [];
  });
});

/** The nets from which current could come to an emergency stop input, by itself or through a relay. */
function netsThatTell(analysis: MachineAnalysis): ReadonlySet<number> {
  const isTold = ({ circuit, part }: CircuitEnd) =>
    (INPUTS.has(circuit.kind) && circuit.does?.word === 'emergency-stop') ||
    part.sheet?.partClass === 'relay';
  const telling = new Set<number>();
  for (const { terminal, net } of circuitEnds(analysis).filter(isTold))
    if (!telling.has(net)) for (const reached of reachFrom(analysis, terminal)) telling.add(reached);
  return telling;
}

function traceDevice(analysis: MachineAnalysis, part: Part, sources: ReadonlySet<number>): StopDevice {
  const direct = traceContacts(analysis, part, sources);
  const behind = new Set<string>();
  const tells = new Set(direct.tells);
  // A relay that is dropped cuts what its contacts lead to; one that leads nowhere but to inputs cuts nothing.
  const counts = new Map<Part, boolean>([[part, true]]);
  const follow = ({ part: relay }: CircuitEnd): boolean => {
    if (relay.sheet?.partClass !== 'relay') return true;
    const known = counts.get(relay);
    if (known !== undefined) return known;
    counts.set(relay, true); // while its contacts are looked at, which may lead back to it
    const through = traceContacts(analysis, relay, sources);
    for (const told of through.tells) tells.add(told);
    for (const end of through.cuts) if (follow(end)) behind.add(nameCircuit(end));
    counts.set(relay, through.cuts.length > 0 || through.tells.length === 0);
    return counts.get(relay) ?? true;
  };
  const cuts = direct.cuts.filter(follow).map(nameCircuit);
  return { part, cuts: [...new Set(cuts)], behind: [...behind], tells: [...tells] };
}

const nameCircuit = ({ part, circuit }: CircuitEnd): string => `${part.name}.${circuit.name}`;

/** What hangs on the contacts of one part: what they cut, and the stop inputs that they tell. */
export function traceContacts(
  analysis: MachineAnalysis,
  part: Part,
  sources: ReadonlySet<number> = sourceNets(analysis),
): { readonly cuts: readonly CircuitEnd[]; readonly tells: readonly string[] } {
  const cuts = new Map<string, CircuitEnd>();
  const tells = new Set<string>();
  for (const terminal of contactsOf(part)) {
    if (!analysis.nets.isWired(terminal)) continue;
    const reached = [...reachFrom(analysis, terminal, part)];
    // The side that the current comes from feeds many things; only what hangs on the other side is switched.
    if (reached.some((net) => sources.has(net))) continue;
    for (const end of reached.flatMap((net) => endsOn(analysis, net))) {
      const isController = end.part.sheet?.partClass === 'controller';
      if (end.part === part) continue;
      if (POWERED.has(end.circuit.kind) && !isController) cuts.set(nameCircuit(end), end);
      if (INPUTS.has(end.circuit.kind) && end.circuit.does?.word === 'emergency-stop')
        tells.add(end.terminal);
    }
  }
  return { cuts: [...cuts.values()], tells: [...tells] };
}

/** The terminals of a part's own contacts. */
function contactsOf({ name, sheet }: Part): string[] {
  const contacts = [...(sheet?.circuits.values() ?? [])].filter(
    ({ kind }) => kind === 'contact' || kind === 'changeover',
  );
  return contacts.flatMap(({ ends }) => ends.map((end) => terminalId(name, end.text)));
}

/** The nets on which a supply or the mains stand. */
export function sourceNets(analysis: MachineAnalysis): Set<number> {
  const { nets, machine } = analysis;
  const mains = mainsTerminals(machine).map((terminal) => terminalId(MAINS, terminal));
  const supplies = circuitEnds(analysis).filter(({ circuit }) => circuit.kind === 'power-out');
  return new Set([
    ...mains.filter((terminal) => nets.isWired(terminal)).map((terminal) => nets.netOf(terminal)),
    ...supplies.map(({ net }) => net),
  ]);
}
