import type { MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { MAINS, mainsTerminals, partsOf } from '../../model/resolve.ts';
import type { Circuit } from '../../model/sheet.ts';
import { type TerminalId, terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import { factMap } from '../../reuse/fact-map.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { mapEach } from '../../reuse/map-each.ts';
import { isSameList } from '../../same-list.ts';
import { type CircuitEnd, endsOn, isSupplied, reachFrom } from '../common/conductors.ts';

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
export const stopDevices = fact('analysis', (analysis: MachineAnalysis): readonly StopDevice[] =>
  devices(analysis).filter((device) => device !== undefined),
);

/** What each part is as such a device; undefined for nearly all of them. */
const devices = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  (analysis: MachineAnalysis, part): StopDevice | undefined => {
    const partClass = part.sheet?.partClass;
    if (partClass !== 'emergency-stop' && partClass !== 'switch') return undefined;
    // Of thousands of switches the few are followed that can come to a stop input at all.
    const tells = (end: TerminalId) => telling.get(analysis, analysis.nets.netOf(end)) === true;
    if (partClass === 'switch' && !contactsOf(part).some(tells)) return undefined;
    const device = traceDevice(analysis, part);
    return partClass === 'emergency-stop' || device.tells.length > 0 ? device : undefined;
  },
  (before, now) => (before && now && isSameDevice(before, now) ? before : now),
);

function isSameDevice(a: StopDevice, b: StopDevice): boolean {
  return (
    a.part === b.part &&
    isSameList(a.cuts, b.cuts) &&
    isSameList(a.behind, b.behind) &&
    isSameList(a.tells, b.tells)
  );
}

/** The nets from which current could come to an emergency stop input, by itself or through a relay. */
const telling = factMap<MachineAnalysis, number, true>('analysis', (analysis) => {
  const nets = new Map<number, true>();
  for (const terminal of toldTerminals(partsOf(analysis.machine)).flat()) {
    if (nets.has(analysis.nets.netOf(terminal))) continue;
    for (const reached of reachFrom(analysis, terminal)) nets.set(reached, true);
  }
  return nets;
});

/** The terminals of emergency stop inputs and of relays, part by part. */
const toldTerminals = mapEach(({ name, sheet }: Part): readonly TerminalId[] => {
  const isTold = ({ kind, does }: Circuit) =>
    sheet?.partClass === 'relay' || (INPUTS.has(kind) && does?.word === 'emergency-stop');
  const told = [...(sheet?.circuits.values() ?? [])].filter(isTold);
  return told.flatMap(({ ends }) => ends.map((end) => terminalId(name, end.text)));
});

function traceDevice(analysis: MachineAnalysis, part: Part): StopDevice {
  const direct = traceContacts(analysis, part);
  const behind = new Set<string>();
  const tells = new Set(direct.tells);
  // A relay that is dropped cuts what its contacts lead to; one that leads nowhere but to inputs cuts nothing.
  const counts = new Map<Part, boolean>([[part, true]]);
  const follow = ({ part: relay }: CircuitEnd): boolean => {
    if (relay.sheet?.partClass !== 'relay') return true;
    const known = counts.get(relay);
    if (known !== undefined) return known;
    counts.set(relay, true); // while its contacts are looked at, which may lead back to it
    const through = traceContacts(analysis, relay);
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
): { readonly cuts: readonly CircuitEnd[]; readonly tells: readonly string[] } {
  const cuts = new Map<string, CircuitEnd>();
  const tells = new Set<string>();
  for (const terminal of contactsOf(part)) {
    if (!analysis.nets.isWired(terminal)) continue;
    const reached = [...reachFrom(analysis, terminal, part)];
    // The side that the current comes from feeds many things; only what hangs on the other side is switched.
    if (reached.some((net) => isSource(analysis, net))) continue;
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

/** Whether a supply or the mains stand on a net. */
export function isSource(analysis: MachineAnalysis, net: number): boolean {
  return isSupplied(analysis, net) || mainsNets(analysis).has(net);
}

const mainsNets = fact('analysis', ({ nets, machine }: MachineAnalysis): ReadonlySet<number> => {
  const mains = mainsTerminals(machine).map((terminal) => terminalId(MAINS, terminal));
  return new Set(mains.filter((terminal) => nets.isWired(terminal)).map((terminal) => nets.netOf(terminal)));
});
