import type { Part } from '../../model/machine.ts';
import type { Circuit } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { CircuitAt } from '../signals.ts';
import type { Element, Plain } from './element.ts';
import { loadOf, makeChangeover, makeContact, makeSensor, makeTwoWireSensor } from './element-contacts.ts';
import {
  between,
  makeAnalogIn,
  makeCoil,
  makeLineIn,
  makeOptoIn,
  makePulledDownIn,
  makePulledUpIn,
} from './element-inputs.ts';
import {
  makeAnalogOut,
  makeLineOut,
  makePushPullOut,
  makeSinkOut,
  makeSourceOut,
} from './element-outputs.ts';
import type { Wired } from './wired.ts';

type Maker = (circuit: Circuit, part: Part, machine: Wired) => Plain;

/**
 * How each kind of circuit is put into branches. Kinds that are not here are conductors and supplies, which form the
 * nets and rails (`power-out`, `joined`, `fuse`, `earth`, `screen`), or are not in direct current and therefore not
 * solved (`mains-in`, `phase-out`, `winding`, `three-phase-out`, `three-phase-in`).
 */
const MAKERS: ReadonlyMap<string, Maker> = new Map<string, Maker>([
  ['power-in', (circuit) => ({ rest: loadOf(circuit, 'current') })],
  ['sink-out', makeSinkOut],
  ['source-out', makeSourceOut],
  ['push-pull-out', makePushPullOut],
  ['line-out', makeLineOut],
  ['line-in', makeLineIn],
  ['contact', (circuit, part, machine) => makeContact(machine, part, circuit)],
  ['changeover', (circuit, part) => makeChangeover(part, circuit)],
  ['pulled-up-in', makePulledUpIn],
  ['pulled-down-in', makePulledDownIn],
  ['opto-in', makeOptoIn],
  ['sensor', (circuit, part, machine) => makeSensor(machine, part, circuit)],
  ['two-wire-sensor', (circuit, part, machine) => makeTwoWireSensor(machine, part, circuit)],
  ['analog-out', makeAnalogOut],
  ['analog-in', (circuit, part, machine) => makeAnalogIn(machine, part, circuit)],
  ['coil', makeCoil],
  ['resistor', (circuit) => ({ rest: between(circuit) })],
]);

/** What stands between the terminals of a circuit, or nothing for kinds that are not solved. */
export function makeElement(machine: Wired, at: CircuitAt): Element | undefined {
  const { part, circuit } = at;
  const maker = MAKERS.get(circuit.kind);
  const wanted =
    circuit.kind === 'changeover' || circuit.kind === 'sensor' || circuit.kind === 'push-pull-out' ? 3 : 2;
  if (!maker || circuit.ends.length < wanted) return undefined;
  const plain = maker(circuit, part, machine);
  return {
    at,
    ends: circuit.ends.slice(0, wanted).map((end) => terminalId(part.name, end.text)),
    rest: plain.rest,
    operated: plain.operated ?? plain.rest,
    mover: plain.mover,
    fed: plain.fed,
    reads: plain.reads,
    lacks: plain.lacks ?? [],
  };
}
