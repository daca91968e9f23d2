import { expect, it } from 'vitest';
import type { Branch, Network } from '../../../server/core/circuits/solve/branch.ts';
import { solve } from '../../../server/core/circuits/solve/solver.ts';
import { spiceNode, writeSpice } from '../../../server/core/circuits/solve/spice.ts';
import { randomFrom } from '../../support/random.ts';
import { randomNetwork } from './random-network.ts';

/*
 * The SPICE text of a network, read by what SPICE says of its lines (SPICE3 manual, sections on R, V and I elements) and solved
 * by modified nodal analysis (Ho, Ruehli and Brennan, 1975) and plain elimination. It comes to the same voltages.
 */

interface Line {
  readonly name: string;
  readonly plus: string;
  readonly minus: string;
  readonly value: number;
}

/** The elements of a text; comments stand behind a star or a semicolon. */
function readLines(text: string): Line[] {
  return text.split('\n').flatMap((line) => {
    const [name = '', plus = '', minus = '', ...rest] = (line.split(';')[0] ?? '').trim().split(/\s+/);
    if (!/^[RVIB]/.test(name)) return [];
    const value = rest.filter((word) => word !== 'DC').join(' ');
    return [{ name, plus, minus, value: Number(value) }];
  });
}

/** The voltages of all nodes of a text above node 0. */
function solveLines(lines: readonly Line[]): ReadonlyMap<string, number> {
  const nodes = [...new Set(lines.flatMap(({ plus, minus }) => [plus, minus]))].filter(
    (node) => node !== '0',
  );
  const sources = lines.filter(({ name }) => name.startsWith('V'));
  const n = nodes.length + sources.length;
  const rows = Array.from({ length: n }, () => new Array<number>(n + 1).fill(0));
  const add = (row: number, column: number, by: number) => {
    const entries = rows[row];
    if (entries && column >= 0) entries[column] = (entries[column] ?? 0) + by;
  };
  const at = (node: string) => nodes.indexOf(node);
  for (const { name, plus, minus, value } of lines) {
    const [p, m] = [at(plus), at(minus)];
    if (name.startsWith('R')) {
      add(p, p, 1 / value);
      add(m, m, 1 / value);
      if (p >= 0 && m >= 0) {
        add(p, m, -1 / value);
        add(m, p, -1 / value);
      }
    } else if (name.startsWith('I')) {
      // A current source drives its current from its first node through itself to its second.
      add(p, n, -value);
      add(m, n, value);
    } else if (name.startsWith('V')) {
      const row = nodes.length + sources.findIndex((source) => source.name === name);
      add(p, row, 1);
      add(m, row, -1);
      add(row, p, 1);
      add(row, m, -1);
      add(row, n, value);
    }
  }
  for (let column = 0; column < n; column++) {
    const left = rows.slice(column);
    const best = left.reduce((most, row) =>
      Math.abs(row[column] ?? 0) > Math.abs(most[column] ?? 0) ? row : most,
    );
    const place = rows.indexOf(best);
    [rows[column], rows[place]] = [best, rows[column] ?? []];
    for (const row of rows) {
      const factor = (row[column] ?? 0) / (best[column] ?? 1);
      if (row === best || factor === 0) continue;
      for (let each = column; each <= n; each++) row[each] = (row[each] ?? 0) - factor * (best[each] ?? 0);
    }
  }
  return new Map(nodes.map((node, row) => [node, (rows[row]?.[n] ?? 0) / (rows[row]?.[row] ?? 1)]));
}

const withoutDiodes = ({ branches, ...network }: Network): Network => ({
  ...network,
  branches: branches.filter(({ kind }) => kind !== 'diode'),
});

it('the text of a network is solved to the same voltages', () => {
  const random = randomFrom(21);
  let compared = 0;
  for (let each = 0; each < 300; each++) {
    const network = { ...withoutDiodes(randomNetwork(random)), reference: random.below(3) };
    const outcome = solve(network);
    if (outcome.kind !== 'solved') continue;
    const text = writeSpice(network, 'some network');
    const volts = solveLines(readLines(text));
    for (let node = 0; node < network.nodes; node++) {
      if (!outcome.tied[outcome.classes.rootOf[node] ?? 0] || node === network.reference) continue;
      const name = spiceNode(network, node);
      // Supplies that agree to a millivolt stand for one voltage.
      expect(Math.abs((volts.get(name) ?? Number.NaN) - (outcome.volts[node] ?? 0)), text).toBeLessThan(5e-3);
      compared++;
    }
  }
  expect(compared).toBeGreaterThan(500);
});

it('what nothing ties is held by a leak of 100 Gohm, one for each set of joined nodes', () => {
  const branches: Branch[] = [
    { kind: 'join', a: 1, b: 2, volts: 0 },
    { kind: 'resistor', a: 3, b: 4, ohms: 50 },
  ];
  const leaks = readLines(writeSpice({ nodes: 5, reference: 0, branches }, 'loose')).filter(({ name }) =>
    name.startsWith('Rleak'),
  );
  expect(leaks.map(({ plus, minus, value }) => [plus, minus, value])).toEqual([
    ['n3', '0', 1e11],
    ['n4', '0', 1e11],
    ['n5', '0', 1e11],
  ]);
});

it('a diode lets through what is above its threshold, on its slope', () => {
  const branch: Branch = { kind: 'diode', a: 1, b: 0, threshold: 1.2, slope: 380 };
  const lines = writeSpice({ nodes: 2, reference: 0, branches: [branch] }, 'lamp').split('\n');
  expect(lines).toContain('B1 n2 0 I=uramp(V(n2,0)-1.2)/380');
});

it('names, titles and notes stay on their line, and lines without a name end with their figures', () => {
  const branches: Branch[] = [
    { kind: 'resistor', a: 1, b: 0, ohms: 5 },
    { kind: 'join', a: 1, b: 0, volts: 3 },
    { kind: 'join', a: 1, b: 0, volts: 3 },
    { kind: 'source', a: 1, b: 0, volts: 6, ohms: 2 },
  ];
  const nameOf = (branch: number) => (branch === 0 ? '' : `name\r\n${branch}`);
  const text = writeSpice({ nodes: 2, reference: 0, branches }, 'a\ntitle', ['one\r\nnote', 'other'], nameOf);
  expect(text).toBe(
    [
      '* a title',
      '* one note',
      '* other',
      'R1 n2 0 5',
      'V2 n2 0 DC 3  ; name 1',
      '* 3 V between n2 and 0, as others hold them: name 2',
      'R4 n2 0 2',
      'I4 0 n2 DC 3  ; name 3',
      '.op',
      '.end',
      '',
    ].join('\n'),
  );
});
