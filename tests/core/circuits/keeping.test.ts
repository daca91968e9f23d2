import { describe, expect, it } from 'vitest';
import type { SolvedInput } from '../../../server/core/circuits/solve/inputs.ts';
import { traceLoop } from '../../../server/core/circuits/solve/loop.ts';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import { traceWay } from '../../../server/core/circuits/solve/way.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { readPanelSheet } from '../../bench/machines.ts';
import { readExample } from '../../support/example.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { solvedOf } from './plain.ts';

/*
 * Solving only what an edit touched gives what solving everything would have given: the same levels, faults and values,
 * in the same order. Held over long sequences of random edits, each upon the one before.
 */

const FILE = 'gantry-router.machine.yaml';
const EDITS = 30;

const open = (): Fettle =>
  createFettle(worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])));

/** What a person does to a text, and what slips. */
const EDITS_OF: readonly ((lines: string[], random: Random) => void)[] = [
  function removeLine(lines, random) {
    lines.splice(random.below(lines.length), 1);
  },
  function repeatLine(lines, random) {
    const from = random.below(lines.length);
    lines.splice(from, 0, lines[from] ?? '');
  },
  function moveLine(lines, random) {
    const [line = ''] = lines.splice(random.below(lines.length), 1);
    lines.splice(random.below(lines.length), 0, line);
  },
  function swapTerminals(lines, random) {
    const links = lines.flatMap((line, index) => (line.includes(' -> ') ? [index] : []));
    const [a, b] = [random.oneOf(links), random.oneOf(links)];
    const end = /-> ([\w-]+\.[\w+-]+)/;
    const [ofA, ofB] = [end.exec(lines[a] ?? '')?.[1], end.exec(lines[b] ?? '')?.[1]];
    if (ofA === undefined || ofB === undefined) return;
    lines[a] = (lines[a] ?? '').replace(end, `-> ${ofB}`);
    lines[b] = (lines[b] ?? '').replace(end, `-> ${ofA}`);
  },
  typeFigure,
  typeFigure,
  function turnSetting(lines, random) {
    const turned: readonly (readonly [string, string])[] = [
      ['normally-closed', 'normally-open'],
      ['on-when-open', 'on-when-closed'],
      [': on,', ': off,'],
      ['44.0 V', '40.0 V'],
    ];
    const [from, to] = random.oneOf(turned);
    const there = lines.flatMap((line, index) => (line.includes(from) ? [index] : []));
    if (there.length === 0) return;
    const at = random.oneOf(there);
    lines[at] = (lines[at] ?? '').replace(from, to);
  },
  function misspell(lines, random) {
    const at = random.below(lines.length);
    const line = lines[at] ?? '';
    const place = random.below(line.length + 1);
    lines[at] = `${line.slice(0, place)}${line.slice(place + 1)}`;
  },
  function addLink(lines, random) {
    const links = lines.flatMap((line, index) => (/^ {2}- [\w.+-]+ -> /.test(line) ? [index] : []));
    const ends = lines.flatMap((line) => line.match(/[\w-]+\.[A-Z][\w+-]*/g) ?? []);
    if (links.length > 0 && ends.length > 0)
      lines.splice(random.oneOf(links), 0, `  - ${random.oneOf(ends)} -> ${random.oneOf(ends)}`);
  },
];

function typeFigure(lines: string[], random: Random): void {
  const there = lines.flatMap((line, index) => (/\d/.test(line) ? [index] : []));
  const at = random.oneOf(there);
  const digits = [...(lines[at] ?? '').matchAll(/\d/g)].map(({ index }) => index);
  const place = random.oneOf(digits);
  lines[at] = `${(lines[at] ?? '').slice(0, place)}${random.below(10)}${(lines[at] ?? '').slice(place)}`;
}

describe('what an edit did not touch', () => {
  it.each([1, 2, 13, 14])('is as if it were solved anew (sequence %i)', (seed) => {
    const random = randomFrom(seed);
    const fettle = open();
    let lines = readExample().split('\n');
    fettle.analyse(FILE, lines.join('\n'));
    for (let edit = 0; edit < EDITS; edit++) {
      // Now and then the person takes everything back, so that the machine does not fall to pieces.
      if (random.below(8) === 0) lines = readExample().split('\n');
      else random.oneOf(EDITS_OF)(lines, random);
      const text = lines.join('\n');
      // What was solved last is remembered by file: the text that is new stands in another one.
      expect(solvedOf(fettle, FILE, text), `edit ${edit}`).toEqual(
        solvedOf(open(), 'anew.machine.yaml', text),
      );
    }
  });

  it('is not solved again', () => {
    const fettle = open();
    const text = readExample();
    const before = solve(fettle, text).inputs;
    const line = /\n.*near-x\.C1.*/.exec(text)?.[0];
    expect(line).toBeDefined();
    const after = solve(fettle, text.replace(line ?? '', '')).inputs;
    const anew = after.filter((input, index) => input.solution !== before[index]?.solution);
    expect(after.length).toBeGreaterThan(30);
    expect(anew.length).toBeGreaterThan(0);
    expect(anew.length).toBeLessThan(4);
  });

  it('keeps no earlier board in memory', () => {
    const fettle = open();
    const random = randomFrom(3);
    const lines = readExample().split('\n');
    for (let edit = 0; edit < 5; edit++) {
      random.oneOf(EDITS_OF)(lines, random);
      const { board, inputs } = solve(fettle, lines.join('\n'));
      for (const { solution, operations } of inputs)
        for (const { circuit } of [solution, ...operations.map((each) => each.solution)])
          expect(circuit.board === board).toBe(true);
    }
  });

  it('stays what it was in versions that somebody still holds', () => {
    const fettle = open();
    const random = randomFrom(5);
    const text = readExample();
    const first = solve(fettle, text);
    const say = () =>
      first.inputs.map((input) => JSON.stringify([traceWay(first.board, input), sayLoop(input)]));
    const before = say();
    expect(before.filter((each) => each.length > 100).length).toBeGreaterThan(20);
    const lines = text.split('\n');
    for (let edit = 0; edit < 12; edit++) {
      random.oneOf(EDITS_OF)(lines, random);
      solve(fettle, lines.join('\n'));
    }
    expect(say()).toEqual(before);
  });
});

function solve(fettle: Fettle, text: string) {
  const analysis = fettle.analyse(FILE, text);
  if (analysis.kind !== 'machine') throw new Error('not read as a machine');
  return circuitsOf(analysis.machine).solved;
}

/** The way of the current through an input, in names and figures. */
function sayLoop({ solution, element }: SolvedInput) {
  return traceLoop(solution, element).map((step) => {
    if (step.kind === 'rail') return [step.terminal, step.volts];
    if (step.kind === 'wire') return [step.link.at.text, step.ohms];
    return [step.element.at.circuit.name, step.state, step.amps];
  });
}
