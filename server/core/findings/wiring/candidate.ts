import type { MachineAnalysis } from '../../analysis.ts';
import { type CircuitAt, circuitsDoing } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import type { Circuit } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { reachFrom } from '../common/conductors.ts';
import { fitsLoad } from '../common/voltage.ts';
import type { Unconnected } from './needed.ts';

/** The one terminal of another part that a missing end can be joined to; undefined where there is none, or a choice. */
export function findCandidate(analysis: MachineAnalysis, lack: Unconnected): string | undefined {
  const [index, second] = lack.missing;
  if (index === undefined || second !== undefined) return undefined;
  const found = new Set(candidates(analysis, lack, index));
  const [only] = found;
  return found.size === 1 ? only : undefined;
}

function candidates(analysis: MachineAnalysis, lack: Unconnected, index: number): string[] {
  switch (lack.why) {
    case 'supply':
    case 'return':
      return supplyEnds(analysis, lack, index);
    case 'signal':
    case 'half':
      return signalEnds(analysis, lack, index);
    case 'sensor':
      return sensorEnds(analysis, lack, index);
    case 'motor':
      return phaseEnds(analysis, lack, index);
    case 'mains':
    case 'pole':
      return []; // what the mains are joined to is chosen by a person, with a fuse or breaker between
  }
}

function endId({ part, circuit }: CircuitAt, index: number): string {
  return terminalId(part.name, circuit.ends[index]?.text ?? '');
}

/** The other end of the supply that already reaches the load, if its voltage fits. */
function supplyEnds(analysis: MachineAnalysis, { part, circuit }: Unconnected, index: number): string[] {
  const { machine, nets } = analysis;
  const load = { part, circuit };
  const joined = reachFrom(analysis, endId(load, 1 - index));
  return circuitsOfKind(machine, 'power-out').flatMap((supply) => {
    if (supply.part === part || !joined.has(nets.netOf(endId(supply, 1 - index)))) return [];
    return fitsLoad(analysis, supply, load) ? [endId(supply, index)] : [];
  });
}

/** The output that makes the signal, or where that is joined already, the supply that feeds the other end. */
function signalEnds(analysis: MachineAnalysis, { part, circuit }: Unconnected, index: number): string[] {
  const { machine, nets } = analysis;
  const word = circuit.does?.word;
  if (word === undefined) return [];
  const axes = [...machine.axes.values()]
    .filter((axis) => axis.drives.some((drive) => drive.text === part.name))
    .map((axis) => axis.name);
  const other = nets.netOf(endId({ part, circuit }, 1 - index));
  return partsWithSheets(machine).flatMap(({ part: controller }) => {
    if (controller === part) return [];
    return circuitsDoing(controller, word).flatMap((output) => {
      const axis = output.does?.axis;
      if (axis !== undefined && axes.length > 0 && !axes.includes(axis)) return [];
      const at = { part: controller, circuit: output };
      const isThere = nets.netOf(endId(at, 0)) === other;
      if (output.kind === 'line-out') return isThere ? [endId(at, 1)] : [endId(at, index)];
      if (!isThere) return nets.isWired(endId(at, 0)) ? [] : [endId(at, 0)];
      return returnEnds(analysis, at, circuit);
    });
  });
}

/** Where the current of an output comes from (sink) or goes back to (source): the controller's own supply. */
function returnEnds({ machine, nets }: MachineAnalysis, output: CircuitAt, input: Circuit): string[] {
  const shared = nets.netOf(endId(output, 1));
  const near = output.circuit.kind === 'source-out' ? 0 : 1;
  return circuitsOfKind(machine, 'power-out').flatMap((supply) =>
    supply.part === output.part && nets.netOf(endId(supply, near)) === shared && suits(supply, input)
      ? [endId(supply, 1 - near)]
      : [],
  );
}

/** Whether the lamp of an isolated input gets a current that it needs and bears; an open question counts as yes. */
function suits({ circuit }: CircuitAt, { figures }: Circuit): boolean {
  const voltage = circuit.figures.quantity('voltage')?.value.value;
  const series = figures.quantity('series')?.value.value;
  if (voltage === undefined || series === undefined || series <= 0) return true;
  const current = (voltage - (figures.quantity('forward')?.value.value ?? 0)) / series;
  const least = figures.quantity('on-at')?.value.value ?? 0;
  const most = figures.quantity('most')?.value.value ?? Number.POSITIVE_INFINITY;
  return current >= least && current <= most;
}

/** The supply for sensors of the part whose input takes the sensor's output. */
function sensorEnds(analysis: MachineAnalysis, { part, circuit }: Unconnected, index: number): string[] {
  const { machine, nets } = analysis;
  const sensor = { part, circuit };
  const out = nets.netOf(endId(sensor, 2));
  const inputs = ['pulled-down-in', 'pulled-up-in']
    .flatMap((kind) => circuitsOfKind(machine, kind))
    .filter((input) => nets.netOf(endId(input, 0)) === out);
  return inputs.flatMap((input) =>
    circuitsOfKind(machine, 'power-out').flatMap((supply) => {
      const shares = nets.netOf(endId(supply, 1)) === nets.netOf(endId(input, 1));
      return supply.part === input.part && shares && fitsLoad(analysis, supply, sensor)
        ? [endId(supply, index)]
        : [];
    }),
  );
}

/** The free end of the output whose other ends the other ends of a winding are joined to. */
function phaseEnds(
  { machine, nets }: MachineAnalysis,
  { part, circuit }: Unconnected,
  index: number,
): string[] {
  const joined = new Set(
    circuit.ends.flatMap((_, end) => (end === index ? [] : nets.netOf(endId({ part, circuit }, end)))),
  );
  return ['phase-out', 'three-phase-out']
    .flatMap((kind) => circuitsOfKind(machine, kind))
    .flatMap((output) => {
      const ends = output.circuit.ends.map((_, end) => endId(output, end));
      const free = ends.filter((end) => !joined.has(nets.netOf(end)));
      return free.length === 1 && free.every((end) => !nets.isWired(end)) ? free : [];
    });
}
