import type { MachineAnalysis } from '../../analysis.ts';
import { type TerminalId, terminalId } from '../../circuits/nets.ts';
import type { Part } from '../../model/machine.ts';
import { MAINS, mainsTerminals } from '../../model/resolve.ts';
import { type CircuitEnd, circuitEnds, reachFrom } from '../common/conductors.ts';

/** An emergency stop device and what its contacts are in the way of. */
export interface StopDevice {
  readonly part: Part;
  readonly wired: boolean;
  /** What loses its power by it: coils and supplies, as `part.circuit`. */
  readonly cuts: readonly string[];
  /** Inputs of controllers that it only tells, as `part.terminal`. */
  readonly tells: readonly string[];
}

/** What stops when its current is cut, whatever a controller thinks of it. */
const POWERED: ReadonlySet<string> = new Set(['coil', 'mains-in', 'power-in', 'three-phase-in']);
const INPUTS: ReadonlySet<string> = new Set(['pulled-up-in', 'pulled-down-in', 'opto-in', 'line-in']);

/** The emergency stop devices of a machine, and switches that are wired to an emergency stop input. */
export function stopDevices(analysis: MachineAnalysis): StopDevice[] {
  return [...analysis.machine.parts.values()].flatMap((part) => {
    const partClass = part.sheet?.partClass;
    if (partClass !== 'emergency-stop' && partClass !== 'switch') return [];
    const device = traceDevice(analysis, part);
    return partClass === 'emergency-stop' || device.tells.length > 0 ? [device] : [];
  });
}

function traceDevice(analysis: MachineAnalysis, part: Part): StopDevice {
  const ends = circuitEnds(analysis);
  const own = ends.filter(
    (end) => end.part === part && (end.circuit.kind === 'contact' || end.circuit.kind === 'changeover'),
  );
  const cuts = new Set<string>();
  const tells = new Set<string>();
  let wired = false;
  for (const { terminal } of own) {
    if (!analysis.nets.isWired(terminal)) continue;
    wired = true;
    const reached = reachFrom(analysis, terminal, part);
    // The side that the current comes from feeds many things; only what hangs on the other side is switched.
    if (isSource(analysis, ends, reached)) continue;
    for (const end of ends) {
      if (end.part === part || !reached.has(analysis.nets.netOf(end.terminal))) continue;
      const isController = end.part.sheet?.partClass === 'controller';
      if (POWERED.has(end.circuit.kind) && !isController) cuts.add(`${end.part.name}.${end.circuit.name}`);
      if (INPUTS.has(end.circuit.kind) && end.circuit.does?.word === 'emergency-stop')
        tells.add(end.terminal);
    }
  }
  return { part, wired, cuts: [...cuts], tells: [...tells] };
}

/** True when a supply or the mains stand on one of these nets. */
function isSource(
  { nets, machine }: MachineAnalysis,
  ends: readonly CircuitEnd[],
  reached: ReadonlySet<number>,
): boolean {
  const mains: TerminalId[] = mainsTerminals(machine).map((terminal) => terminalId(MAINS, terminal));
  const supplies = ends.filter((end) => end.circuit.kind === 'power-out').map((end) => end.terminal);
  return [...mains.filter((terminal) => nets.isWired(terminal)), ...supplies].some((terminal) =>
    reached.has(nets.netOf(terminal)),
  );
}
