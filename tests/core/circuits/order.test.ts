import { describe, expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { groupBy } from '../../../server/core/group.ts';
import { cutText } from '../../../server/core/syntax/blocks.ts';
import { nameWires } from '../../../server/core/values/named-ways.ts';
import { readExamples } from '../../support/examples.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { randomMachine } from './random-machine.ts';

/** In which order parts and links are written makes no difference to what a machine is. */

function shuffle<T>(items: readonly T[], random: Random): T[] {
  const left = [...items];
  return items.flatMap(() => left.splice(random.below(left.length), 1));
}

type Stretch = { readonly from: number; to: number };

/** The text with the entries of `parts:` and of `wiring:` in another order, each with the comments behind it. */
function reorder(text: string, random: Random): string {
  const closed = text.endsWith('\n') ? text : `${text}\n`;
  const sections: { key: Stretch; entries: Stretch[] }[] = [];
  const { kinds, starts } = cutText(closed);
  for (const [place, kind] of kinds.entries()) {
    const cut = { from: starts[place] ?? 0, to: starts[place + 1] ?? 0 };
    const last = sections.at(-1);
    const before = last?.entries.at(-1) ?? last?.key;
    if (kind === 'entry') last?.entries.push(cut);
    else if (kind === 'between' && before) before.to = cut.to;
    else sections.push({ key: cut, entries: [] });
  }
  return sections
    .map(({ key, entries }) => {
      const head = closed.slice(key.from, key.to);
      const pieces = entries.map(({ from, to }) => closed.slice(from, to));
      return head + (/^(?:parts|wiring):/m.test(head) ? shuffle(pieces, random) : pieces).join('');
    })
    .join('');
}

function meaningOf(text: string, files: ReadonlyMap<string, string> = new Map()) {
  const fettle = createFettle(worldOf(files));
  const analysis = fettle.analyse('router.machine.yaml', text);
  const links = analysis.kind === 'machine' ? analysis.machine.links : [];
  // Wires with the same label or ends are numbered as they are written; here all are called by their ends alone.
  const endsOf = new Map(
    [...nameWires(links)].map(([{ from, to }, name]) => [
      name,
      `${from.part}.${from.terminal} -> ${to.part}.${to.terminal}`,
    ]),
  );
  const nameOf = (address: string) =>
    address.replace(/^wires\.(.+)(?=\.)/, (whole, name) => endsOf.get(name) ?? whole);
  const values = groupBy([...analysis.values.byAddress.values()], ({ address }) => nameOf(address));
  return {
    values: new Map(
      [...values].map(([name, same]) => [name, same.map(({ si }) => si).sort((a, b) => a - b)]),
    ),
    findings: fettle
      .findings(analysis)
      .map(({ code }) => code)
      .toSorted(),
    missing: [...analysis.values.missing.keys()].map(nameOf).toSorted(),
  };
}

function expectSame(text: string, random: Random, files?: ReadonlyMap<string, string>): void {
  const other = reorder(text, random);
  expect(other).not.toBe(text);
  const [before, after] = [meaningOf(text, files), meaningOf(other, files)];
  expect([...after.values.keys()].toSorted()).toEqual([...before.values.keys()].toSorted());
  const pairs = [...before.values].flatMap(([name, all]) =>
    all.map((si, at) => [name, si, after.values.get(name)?.[at] ?? Number.NaN] as const),
  );
  expect(pairs.length).toBe([...after.values.values()].flat().length);
  for (const [name, si, now] of pairs) {
    // Sums are taken in another order, so the last digits may differ.
    expect(Math.abs(now - si), `${name}: ${si}, then ${now}`).toBeLessThanOrEqual(1e-6 * Math.abs(si) + 1e-9);
  }
  expect(after.findings).toEqual(before.findings);
  expect(after.missing).toEqual(before.missing);
}

describe.each(readExamples().map((example) => [example.name, example] as const))('%s', (_, example) => {
  test.each([1, 2])('is the same machine in order %i', (seed) => {
    expectSame(example.files.get(example.machine) ?? '', randomFrom(seed), example.files);
  });
});

test.each(Array.from({ length: 30 }, (_, seed) => seed + 1))('so is random machine %i', (seed) => {
  expectSame(randomMachine(randomFrom(seed)), randomFrom(seed));
});
