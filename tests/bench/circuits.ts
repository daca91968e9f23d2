import { circuitsOf } from '../../server/core/circuits/solve/solved.ts';
import { readMachineText } from '../../server/core/model/machine.ts';
import { type Machine, resolveMachine } from '../../server/core/model/resolve.ts';
import { createTrees } from '../../server/core/model/trees.ts';
import { randomFrom } from '../support/random.ts';
import { worldOf } from '../support/world.ts';
import { readPanelSheet } from './machines.ts';
import { medianOf, time } from './measure.ts';

const FILE = 'bench.machine.yaml';
const WARM_UP = 5;

/** How long the circuits of a machine take in all states and with all single faults, in ms, medians. */
export interface CircuitTimes {
  /** All of them, as on opening the file. */
  readonly anew: number;
  /** After a figure was typed into the length of a wire. */
  readonly typed: number;
  /** After a letter was typed into the end of a link, so that something is joined otherwise. */
  readonly rejoined: number;
}

/** Measures the circuits alone; reading the text is not counted. */
export function measureCircuits(text: string, rounds: number): CircuitTimes {
  const after = (pattern: RegExp, typed: string) => {
    const read = reader();
    const places = [...text.matchAll(pattern)].map((match) => match.index + match[0].length);
    const random = randomFrom(5);
    circuitsOf(read(text));
    const times: number[] = [];
    for (let round = -WARM_UP; round < rounds; round++) {
      const place = random.oneOf(places);
      const machine = read(`${text.slice(0, place)}${typed}${text.slice(place)}`);
      const taken = time(() => circuitsOf(machine));
      circuitsOf(read(text));
      if (round >= 0) times.push(taken);
    }
    return medianOf(times);
  };
  const anew: number[] = [];
  for (let round = -1; round < Math.min(rounds, 8); round++) {
    const machine = reader()(text);
    const taken = time(() => circuitsOf(machine));
    if (round >= 0) anew.push(taken);
  }
  return {
    anew: medianOf(anew),
    typed: after(/length: +(?=\d)/g, '1'),
    rejoined: after(/-> panel(?:-\d+)?\.I\d/g, 'x'),
  };
}

/** Reads versions of one text, as an editor would: what did not change stays the same object. */
function reader(): (text: string) => Machine {
  const trees = createTrees();
  const world = worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]]));
  return (text) => resolveMachine(FILE, readMachineText(trees.read(FILE, text).root), world, trees);
}
