import { expect, it } from 'vitest';
import type { MachineAnalysis } from '../../../server/core/analysis.ts';
import { loopsOf } from '../../../server/core/circuits/loops/loops.ts';
import { type OpenCircuit, openCircuitsOf } from '../../../server/core/circuits/loops/open-circuits.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from './bench-parts.ts';
import { callOtherwise, withSheets } from './call-otherwise.ts';
import { randomMachine } from './random-machine.ts';
import { analyse, openBench } from './versions.ts';

/*
 * What can carry no current is looked for only where an edit touched something, up to what the supplies hold. It is what would
 * be found of the text if it were new, also where islands are joined and parted, and beside what nobody knows.
 */

const MACHINES = 40;
const EDITS = 24;

/** As if the text were new. What was solved last is remembered by file, so it stands in another one. */
const anew = (text: string) => analyse(openBench(), text, 'anew.machine.yaml');

/** All that is told of open circuits, by names. */
function openOf({ machine }: MachineAnalysis) {
  const { all, of, nodeOf, placeOf, terminalsOn, islandOf } = openCircuitsOf(machine);
  const namesOn = (node: number) => terminalsOn(node).filter((name) => name !== '');
  const islandNames = new Map<number, string>();
  const terminals = [...machine.parts.values()].flatMap(({ name, sheet }) =>
    [...(sheet?.terminals.keys() ?? [])].map((terminal) => `${name}.${terminal}`),
  );
  // An island is as good as another by a number: it is called by the first terminal on it.
  const islandAt = (node: number | undefined) => {
    const island = node === undefined ? undefined : islandOf(node);
    return island === undefined ? 'none' : (islandNames.get(island) ?? 'unnamed');
  };
  for (const terminal of [...terminals, 'mains.L', 'mains.N', 'other.A']) {
    const island = islandOf(nodeOf[placeOf.get(terminal) ?? -1] ?? -1);
    if (island !== undefined && !islandNames.has(island)) islandNames.set(island, terminal);
  }
  const sayLegs = ({ legs }: OpenCircuit) =>
    legs.map(({ at, from, to }) => {
      const isPresent = at !== undefined && machine.parts.get(at.part.name) === at.part;
      return `${at?.part.name}.${at?.circuit.name} ${from} ${to} ${isPresent}`;
    });
  return {
    all: all.map((each) => [
      sayLegs(each),
      each.loose.map(namesOn),
      each.anchors.map(namesOn),
      [...each.islands].map((island) => islandNames.get(island)),
    ]),
    of: [...of.keys()],
    islands: terminals.map((terminal) => [terminal, islandAt(nodeOf[placeOf.get(terminal) ?? -1])]),
  };
}

/** Links are put in, taken out and led elsewhere, also to what nobody knows; parts are set and called otherwise. */
function edit(text: string, random: Random): string {
  const lines = text.split('\n');
  const links = [...lines.keys()].filter((line) => lines[line]?.includes(' -> '));
  const at = random.oneOf(links);
  const lead = (to: string) => lines[at]?.replace(/-> [\w+-]+\.[\w+-]+/, `-> ${to}`) ?? '';
  switch (random.below(9)) {
    case 0:
      if (links.length > 2) lines.splice(at, 1);
      break;
    case 1:
      lines.splice(at, 0, lines[random.oneOf(links)] ?? '');
      break;
    case 2: {
      const ends = text.match(/\w+\.[\w+-]+(?= -> )/g) ?? [];
      lines[at] = lead(random.oneOf(ends));
      break;
    }
    case 3:
      lines.splice(at, 0, lead(random.oneOf(['mains.L', 'mains.N', 'other.A', 'other.B', 'p1.none'])));
      break;
    case 4:
      return text.replace(
        /(?:mains|other)\.\w/,
        random.oneOf(['mains.L', 'mains.N', 'other.A', 'another.A']),
      );
    case 5: {
      const volts = `set: { output-voltage: ${22 + random.below(7)} V }`;
      return text.includes('output-voltage')
        ? text.replace(/set: \{ output-voltage: \d+ V \}/, volts)
        : text.replace('psu.part.yaml }', `psu.part.yaml, ${volts} }`);
    }
    case 6:
      return text.includes('{ use: off }')
        ? text.replace(', set: { use: off }', '')
        : text.replace('reader.part.yaml }', 'reader.part.yaml, set: { use: off } }');
    default:
      return callOtherwise(text, random);
  }
  return lines.join('\n');
}

it('after each edit as much is open as if the text were new, in forty small machines', () => {
  let [found, kept] = [0, 0];
  for (let seed = 1; seed <= MACHINES; seed++) {
    const random = randomFrom(seed);
    let text = withSheets(randomMachine(random));
    const fettle = openBench();
    let before = new Set<unknown>();
    for (let each = 0; each < EDITS; each++) {
      const analysis = analyse(fettle, text);
      // Not every version is asked.
      if (random.below(4) > 0) {
        expect(openOf(analysis), text).toEqual(openOf(anew(text)));
        const { groups } = loopsOf(analysis.machine);
        found += groups.length;
        kept += groups.filter((group) => before.has(group)).length;
        before = new Set(groups);
      }
      text = edit(text, random);
    }
  }
  expect(found).toBeGreaterThan(200);
  expect(kept).toBeGreaterThan(found / 10);
});

it('a supply that gives more drives a current where it drove none against another of its voltage', () => {
  const links = ['psu.V+ -> closed.A', 'closed.B -> reader.UP', 'psu.V- -> reader.S0'];
  const machineAt = (volts: number) =>
    withSheets(benchMachine(['reader', 'closed', 'psu'], links)).replace(
      'psu.part.yaml }',
      `psu.part.yaml, set: { output-voltage: ${volts} V } }`,
    );
  const fettle = openBench();
  const looks = [24, 28, 24].map((volts) => {
    const said = openOf(analyse(fettle, machineAt(volts)));
    expect(said).toEqual(openOf(anew(machineAt(volts))));
    return said;
  });
  expect(looks[1]).not.toEqual(looks[0]);
  expect(looks[2]).toEqual(looks[0]);
});

it('a wire that is led to the mains instead of to what nobody knows closes a loop at the same place', () => {
  const machineWith = (end: string) =>
    withSheets(benchMachine(['relay'], [`relay.A1 -> ${end}`, 'relay.A2 -> mains.N']));
  const fettle = openBench();
  const looks = ['other.A', 'mains.L', 'other.A'].map((end) => {
    const said = openOf(analyse(fettle, machineWith(end)));
    expect(said).toEqual(openOf(anew(machineWith(end))));
    return said.islands;
  });
  expect(looks[1]).not.toEqual(looks[0]);
});

it.each([
  [
    'a coil closes the loop of a resistor between two supplies',
    ['psu.V+ -> resistor.A', 'resistor.B -> psu48.V+', 'psu.V- -> relay.A1'],
    'relay.A2 -> psu48.V-',
  ],
  [
    'a coil closes the loop of a contact and a resistor in a row between two supplies',
    ['psu.V+ -> closed.A', 'closed.B -> resistor.A', 'resistor.B -> psu48.V+', 'psu.V- -> relay.A1'],
    'relay.A2 -> psu48.V-',
  ],
  [
    'what nobody knows closes the loop of a resistor between two supplies',
    ['psu.V+ -> resistor.A', 'psu.V- -> other.A', 'other.B -> psu48.V-'],
    'resistor.B -> psu48.V+',
  ],
])('%s, and opens it', (_, links, last) => {
  const machineWith = (link: string) =>
    withSheets(benchMachine(['psu', 'psu48', 'closed', 'resistor', 'relay'], [...links, link]));
  const fettle = openBench();
  const elsewhere = last.replace(/-> .*/, '-> relay.14');
  const looks = [elsewhere, last, elsewhere].map((link) => {
    const said = openOf(analyse(fettle, machineWith(link)));
    expect(said).toEqual(openOf(anew(machineWith(link))));
    return said;
  });
  expect(looks[1]).not.toEqual(looks[0]);
});

it('terminals are found by the names that they have now', () => {
  // Of a part that no current goes through nothing stands in a loop.
  const bare = '{ part: bare, terminals: { all: [A] }, circuits: { earth: { earth: A } } }\n';
  const fettle = createFettle(worldOf(new Map([['bare.part.yaml', bare]])));
  const machineWith = (name: string) =>
    `machine: Bench\nparts:\n  ${name}: { sheet: bare.part.yaml }\nwiring:\n  - strip.1 -> ${name}.A\n`;
  for (const name of ['bare', 'plain']) {
    const { placeOf } = openCircuitsOf(analyse(fettle, machineWith(name)).machine);
    expect(placeOf.get(`${name}.A`)).toBeDefined();
  }
});
