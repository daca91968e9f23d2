import fs from 'node:fs';
import path from 'node:path';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { type Random, randomFrom } from '../support/random.ts';

/**
 * A machine of so many lines (not fewer than the example has), made from the example by adding cells: a panel with its
 * settings, two supplies, four drives with their motors, and six switches, all wired; what is left of the lines is filled
 * with terminal strips. The same seed gives the same text.
 */
export function makeMachine(lines: number, seed = 1): string {
  const random = randomFrom(seed);
  const { head, parts, settings, wiring, tail } = cutExample();
  const missing = (): number => lines - head.length - parts.length - wiring.length - tail.length;
  const add = (more: readonly [parts: readonly string[], links: readonly string[]]): void => {
    parts.push(...more[0]);
    wiring.push(...more[1]);
  };
  for (let cell = 1; missing() > 0; cell++) {
    const [partLines, linkLines] = [partsOf(cell, settings), linksOf(cell, random)];
    if (partLines.length + linkLines.length > missing()) break;
    add([partLines, linkLines]);
  }
  for (let strip = 1; missing() > 1; strip++) add(stripOf(strip, random));
  return [...head, ...parts, ...wiring, ...tail].join('\n');
}

/** The example in four pieces: up to the parts, the parts, the links, and what follows. */
function cutExample() {
  const all = readExample().split('\n');
  const wiringAt = all.findIndex((line) => line.startsWith('wiring:'));
  const axesAt = all.findIndex((line) => line.startsWith('axes:'));
  const partsAt = all.findIndex((line) => line.startsWith('parts:'));
  const parts = all.slice(partsAt + 1, wiringAt);
  const setFrom = parts.indexOf('    set: {', parts.indexOf('  panel:'));
  return {
    head: all.slice(0, partsAt + 1),
    parts,
    settings: parts.slice(setFrom, parts.indexOf('    }', setFrom) + 1),
    wiring: all.slice(wiringAt, axesAt),
    tail: all.slice(axesAt),
  };
}

const LETTERS = ['X', 'Y', 'Z', 'A'] as const;
const metres = (random: Random) => `${(0.2 + random.below(60) / 10).toFixed(1)} m`;

function partsOf(cell: number, settings: readonly string[]): string[] {
  return [
    '',
    `  # Cell ${cell}`,
    `  panel-${cell}:`,
    '    sheet: sheets/four-axis-bench-panel.part.yaml',
    `    at: cabinet-${cell}`,
    ...settings.map(switchOffUnwired),
    `  breaker-${cell}: { sheet: generic/circuit-breaker-16a, at: cabinet-${cell} }`,
    `  logic-${cell}:   { sheet: generic/supply-24v, at: cabinet-${cell} }`,
    `  power-${cell}:   { sheet: generic/supply-48v, at: cabinet-${cell}, set: { output-voltage: 44.0 V } }`,
    ...LETTERS.flatMap((letter) => [
      `  drive-${cell}-${letter}: { sheet: generic/microstep-drive-50v, at: cabinet-${cell}, set: { microsteps: 8, phase-current: 3.2 A, enable-sense: on-when-closed } }`,
      `  motor-${cell}-${letter}: { sheet: generic/stepper-57mm-2nm, at: bed-${cell} }`,
    ]),
    ...[1, 2, 3, 4, 5, 6].map(
      (n) =>
        `  switch-${cell}-${n}: { sheet: generic/roller-switch, at: bed-${cell}, set: { contact: normally-closed } }`,
    ),
  ];
}

/** A cell has six switches and nothing else on its inputs, so the others are not in use. */
function switchOffUnwired(line: string): string {
  return line.replace(/\b(c9-(?:[7-9]|1\d)|c11-1): on\b/g, '$1: off');
}

function linksOf(cell: number, random: Random): string[] {
  const link = (text: string, wire: string, label: number) =>
    `  - { link: ${text}, wire: ${wire}, length: ${metres(random)}, label: ${cell}-${label} }`;
  const panel = `panel-${cell}`;
  return [
    '',
    `  # Cell ${cell}`,
    ...['logic', 'power'].flatMap((name, n) => [
      link(`breaker-${cell}.2 -> ${name}-${cell}.L`, '2.5 mm2 BN', 3 + n),
      link(`mains.N -> ${name}-${cell}.N`, '2.5 mm2 BU', 5 + n),
      link(`earth-bar.E20 -> ${name}-${cell}.PE`, '2.5 mm2 GNYE', 7 + n),
    ]),
    link(`mains.L -> breaker-${cell}.1`, '2.5 mm2 BN', 90),
    link(`earth-bar.E20 -> ${panel}.PE`, '2.5 mm2 GNYE', 9),
    link(`logic-${cell}.V+ -> ${panel}.DC+`, '0.75 mm2 BU', 1),
    link(`${panel}.DC- -> logic-${cell}.V-`, '0.75 mm2 BU', 2),
    ...LETTERS.flatMap((letter, n) => {
      const drive = `drive-${cell}-${letter}`;
      const motor = `motor-${cell}-${letter}`;
      return [
        link(`power-${cell}.V+ -> ${drive}.V+`, '4 mm2 BK', 10 + n),
        link(`power-${cell}.V- -> ${drive}.V-`, '4 mm2 BK', 20 + n),
        link(`${panel}.V${letter} -> ${drive}.PUL+`, '0.25 mm2 BN', 30 + n),
        link(`${panel}.P${letter} -> ${drive}.PUL-`, '0.25 mm2 WH', 40 + n),
        link(`${panel}.D${letter} -> ${drive}.DIR-`, '0.25 mm2 GN', 50 + n),
        link(`${panel}.E${letter} -> ${drive}.ENA-`, '0.25 mm2 YE', 60 + n),
        `  - ${drive}.DIR+ -> ${drive}.PUL+, ${drive}.ENA+  BU`,
        `  - cable: M${cell}-${n}`,
        '    wire: 4 x 1 mm2 screened',
        `    length: ${metres(random)}`,
        `    screen: earth-bar.E${12 + n}`,
        '    links:',
        ...['A+', 'A-', 'B+', 'B-'].map(
          (end, i) => `      - ${drive}.${end} -> ${motor}.${end}  ${['BN', 'BU', 'BK', 'GY'][i]}`,
        ),
      ];
    }),
    ...[1, 2, 3, 4, 5, 6].flatMap((n) => [
      link(`${panel}.S24 -> switch-${cell}-${n}.C1`, '0.5 mm2 BN', 70 + n),
      link(`switch-${cell}-${n}.C2 -> ${panel}.I${n}`, '0.5 mm2 WH', 80 + n),
    ]),
  ];
}

/** A terminal strip with the wire that feeds it: two lines. */
function stripOf(strip: number, random: Random): [string[], string[]] {
  const wire = `wire: 1.5 mm2 BK, length: ${metres(random)}, label: S${strip}`;
  return [
    [`  strip-${strip}: { sheet: generic/terminal-strip-6, at: cabinet }`],
    [`  - { link: dc-minus.T1 -> strip-${strip}.1a, ${wire} }`],
  ];
}

/** Places of digits in values, where a person would change a figure: offsets into the text. */
export function placesToType(text: string): readonly number[] {
  return [...text.matchAll(/(?:length|phase-current|travel|feed|mass): +(\d)/g)].map(
    (match) => match.index + match[0].length - 1,
  );
}

/** The sheet beside the example, which the machines use too. */
export const readPanelSheet = (): string =>
  fs.readFileSync(path.join(EXAMPLE_FOLDER, 'sheets/four-axis-bench-panel.part.yaml'), 'utf8');
