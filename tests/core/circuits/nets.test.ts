import { expect, it } from 'vitest';

import { buildNets } from '../../../server/core/circuits/nets.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import type { Link } from '../../../server/core/model/wiring.ts';
import { readPanelSheet } from '../../bench/machines.ts';
import { readExample } from '../../support/example.ts';
import { worldOf } from '../../support/world.ts';
import { benchMachine } from './bench-parts.ts';
import { machineOf } from './machines.ts';

/* What is noted of a terminal stays while nothing about that terminal changes, so that little is worked out anew. */

const FILE = 'gantry-router.machine.yaml';
const TYPED = 'unused.terminal';

/** Two versions of the example, one after the other; the second has a link that ends elsewhere. */
function typeAnEnd() {
  const fettle = createFettle(
    worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])),
  );
  const text = readExample();
  const read = (version: string) => {
    const analysis = fettle.analyse(FILE, version);
    if (analysis.kind !== 'machine') throw new Error('not read as a machine');
    return analysis;
  };
  const before = read(text);
  const ends = before.machine.links.flatMap(endsOf);
  const nets = new Map(ends.map((end) => [end, before.nets.netOf(end)]));
  const lists = new Map(ends.map((end) => [end, before.nets.linksAt(end)]));
  const after = read(text.replace(/(->\s*)[\w-]+\.[\w+-]+/, `$1${TYPED}`));
  return { ends, nets, lists, before, after };
}

const endsOf = ({ from, to }: Link): string[] => [from, to].map((end) => end.id);

it('keeps the number of a net that the link was not on', () => {
  const { ends, nets, before, after } = typeAnEnd();
  const changed = after.machine.links.findIndex((link) => endsOf(link).includes(TYPED));
  const link = before.machine.links[changed];
  const touched = new Set(link && endsOf(link).map((end) => nets.get(end)));
  const others = ends.filter((end) => !touched.has(nets.get(end)));
  expect(others.length).toBeGreaterThan(100);
  expect(others.filter((end) => after.nets.netOf(end) !== nets.get(end))).toEqual([]);
});

it('keeps the list of links at a terminal that the link did not end at', () => {
  const { ends, lists, after } = typeAnEnd();
  const other = new Set(ends.filter((end) => after.nets.linksAt(end) !== lists.get(end)));
  // The links of one entry of the list are read anew together.
  expect(other.size).toBeGreaterThan(0);
  expect(other.size).toBeLessThan(10);
});

it('lists the terminals of a net in the order of the text, whatever was there before', () => {
  const { after } = typeAnEnd();
  const fresh = createFettle(
    worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])),
  ).analyse(FILE, after.tree.text);
  if (fresh.kind !== 'machine') throw new Error('not read as a machine');
  const listsOf = ({ machine, nets }: typeof after) =>
    machine.links.map(({ from }) => nets.terminalsOn(nets.netOf(from.id)));
  expect(listsOf(after)).toEqual(listsOf(fresh));
});

it('looks at the links of a terminal once, however often they are asked for', () => {
  const ends = Array.from({ length: 100 }, (_, place) => `psu.V+ -> r${place}.A`);
  const machine = machineOf(benchMachine(['psu'], ends));
  let reads = 0;
  const links = new Proxy(machine.links, {
    get: (list, key) => {
      reads++;
      return Reflect.get(list, key);
    },
  });
  const { linksAt } = buildNets(Object.create(machine, { links: { value: links } }));
  expect(linksAt('psu.V+').length).toBe(100);
  const once = reads;
  for (let times = 0; times < 5; times++) linksAt('psu.V+');
  expect(reads).toBe(once);
});
