import type { Branch, Network } from './branch.ts';
import { classify } from './joins.ts';
import { LEAK } from './solver.ts';

/**
 * Writes a network as SPICE text, so that any circuit simulator can put the solver to the test. Nodes are numbered
 * from 1 and the reference is 0. Wires and closed contacts are sources of 0 V. Diodes are behavioural sources with the same threshold and slope, and each set of
 * joined nodes has the same leak as in the solver.
 * @param notes comments to stand under the title, a line each
 * @param nameOf what a branch is, written behind it; may be left out
 */
export function writeSpice(
  network: Network,
  title: string,
  notes: readonly string[] = [],
  nameOf: (branch: number) => string = () => '',
): string {
  const node = (place: number) => spiceNode(network, place);
  const { classes } = classify(network);
  const lines = network.branches.map((branch, index) => {
    const name = oneLine(nameOf(index));
    // Sources in a loop without resistance have no solution in SPICE, even where they agree.
    if (branch.kind === 'join' && !classes.tree.includes(index))
      return `* ${branch.volts} V between ${node(branch.a)} and ${node(branch.b)}, as others hold them: ${name}`;
    return `${writeBranch(branch, index + 1, node)}${name === '' ? '' : `  ; ${name}`}`;
  });
  const { rootOf } = classes;
  const leaks = [...new Set(rootOf)]
    .filter((root) => root !== rootOf[network.reference])
    .map((root) => `Rleak${root + 1} ${node(root)} 0 ${1 / LEAK}`);
  return `${[`* ${oneLine(title)}`, ...notes.map((note) => `* ${oneLine(note)}`), ...lines, ...leaks, '.op', '.end'].join('\n')}\n`;
}

/** How a node is called in the text: a number, 0 for the reference. */
export function spiceNode({ reference }: Network, place: number): string {
  return place === reference ? '0' : `n${place + 1}`;
}

function writeBranch(branch: Branch, number: number, node: (place: number) => string): string {
  const ends = `${node(branch.a)} ${node(branch.b)}`;
  switch (branch.kind) {
    case 'join':
      return `V${number} ${ends} DC ${branch.volts}`;
    case 'resistor':
      return `R${number} ${ends} ${branch.ohms}`;
    case 'source':
      // Written as its equal, a current source beside the resistance, which needs no node in between.
      return `R${number} ${ends} ${branch.ohms}\nI${number} ${node(branch.b)} ${node(branch.a)} DC ${branch.volts / branch.ohms}`;
    case 'current':
      return `I${number} ${ends} DC ${branch.amps}`;
    case 'diode':
      return `B${number} ${ends} I=uramp(V(${node(branch.a)},${node(branch.b)})-${branch.threshold})/${branch.slope}`;
  }
}

/** Comments must not be able to begin a line of their own. */
function oneLine(text: string): string {
  return text.replace(/[\r\n]+/g, ' ');
}
