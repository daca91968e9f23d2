import { type Branch, type Network, resistor } from '../../../server/core/circuits/solve/branch.ts';
import type { Random } from '../../support/random.ts';

const OHMS = [10, 47, 330, 576, 1e3, 2.2e3, 4.7e3, 20e3, 100e3];
const VOLTS = [3.3, 5, 12, 24, 36, 44, -12];

/**
 * A network of 3 to 12 nodes such as wiring forms: rails, voltages behind resistances, resistors, diodes either way,
 * switches open and closed, and some supplies between nodes that nothing else holds. Node 0 is the reference.
 */
export function randomNetwork(random: Random): Network {
  const nodes = 3 + random.below(10);
  const branches: Branch[] = [];
  const two = (): { a: number; b: number } => {
    const a = random.below(nodes);
    return { a, b: (a + 1 + random.below(nodes - 1)) % nodes };
  };
  const rails = 1 + random.below(3);
  for (let rail = 1; rail <= Math.min(rails, nodes - 1); rail++)
    branches.push({ kind: 'join', a: rail, b: 0, volts: random.oneOf(VOLTS) });
  const count = nodes + random.below(2 * nodes);
  for (let each = 0; each < count; each++) branches.push(randomBranch(random, two()));
  return { nodes, reference: 0, branches };
}

function randomBranch(random: Random, ends: { a: number; b: number }): Branch {
  const { a, b } = ends;
  switch (random.below(10)) {
    case 0:
    case 1:
    case 2:
    case 3:
      return resistor(a, b, random.oneOf(OHMS));
    case 4:
    case 5:
    case 6:
      return {
        kind: 'diode',
        a,
        b,
        threshold: random.oneOf([0, 0.3, 0.7, 1.2, 2]),
        slope: random.oneOf([1, 10, 270, 330, 2200]),
      };
    case 7:
      return { kind: 'source', a, b, volts: random.oneOf(VOLTS), ohms: random.oneOf(OHMS) };
    case 8:
      return { kind: 'join', a, b, volts: 0 };
    default:
      return random.below(3) === 0
        ? { kind: 'join', a, b, volts: random.oneOf(VOLTS) }
        : { kind: 'current', a, b, amps: random.oneOf([1e-4, 1e-3, 5e-3]) };
  }
}
