import type { Derived } from '../../../server/core/values/derived.ts';
import { analyseTexts } from '../../support/marked.ts';

/** A supply, a load, and a conductor to it and back; conductors are written alike unless it says otherwise. */
export interface WireMachine {
  /** As it is written, such as `0.5 mm2`. */
  readonly wire?: string;
  /** The wire back where that is another one. */
  readonly back?: string;
  readonly length?: string;
  /** What the load draws, in A. */
  readonly amps?: number;
  readonly convention?: 'IEC' | 'NFPA';
  /** Further links of the cable that both conductors run in; without it they are single. */
  readonly cable?: readonly string[];
  /** In front of the plus wire, in A; without it there is none. */
  readonly fuse?: number;
  /** What the supply gives, in A. */
  readonly supply?: number;
  /** Colours of the wire to the load and of the one back. */
  readonly colours?: readonly [string, string];
}

const NAME = 'bench.machine.yaml';

function write(of: WireMachine): string {
  const { wire = '1 mm2', length = '1 m', amps = 1, convention = 'IEC', cable, fuse, supply = 100 } = of;
  const [there, back] = of.colours ?? ['', ''];
  const from = fuse === undefined ? 'psu.V+' : 'fuse.2';
  const conductors = [`${from} -> lamp.L+`, 'lamp.L- -> psu.V-'];
  const size = cable ? `${conductors.length + cable.length} x ${wire}` : wire;
  const links = cable
    ? [`  - { cable: W, wire: ${size}, length: ${length}, links: [${[...conductors, ...cable].join(', ')}] }`]
    : conductors.map((link, index) => {
        const colour = [there, back][index] ?? '';
        const own = index === 1 ? (of.back ?? wire) : wire;
        return `  - { link: ${link}, wire: ${own}${colour && ` ${colour}`}, length: ${length}, label: W${index + 1} }`;
      });
  return `machine: Bench
conventions: { wire-colours: ${convention} }
parts:
  psu: { class: supply, terminals: { out: [V+, V-] }, circuits: { output: { power-out: [V+, V-], voltage: 24 V, current: ${supply} A } } }
  lamp: { class: load, terminals: { in: [L+, L-] }, circuits: { lamp: { power-in: [L+, L-], voltage: 24 V, current: ${amps} A } } }
  fan: { class: load, terminals: { in: [F+, F-] }, circuits: { fan: { power-in: [F+, F-], voltage: 24 V, current: ${amps} A } } }
  fuse: { class: fuse, terminals: { ends: [1, 2] }, circuits: { link: { fuse: [1, 2], rating: ${fuse ?? 1} A } } }
wiring:
${fuse === undefined ? '' : '  - psu.V+ -> fuse.1\n'}${links.join('\n')}
`;
}

/** Analyses it through the front door. */
function analyseWire(of: WireMachine) {
  return analyseTexts(new Map([[NAME, write(of)]]));
}

/** A value by its address, which must be there. */
export function wireValue(of: WireMachine, address: string): Derived {
  const { values } = analyseWire(of).analysis;
  const value = values.byAddress.get(address);
  if (!value) throw new Error(`${address}: ${values.missing.get(address)?.needs ?? 'not asked for'}`);
  return value;
}

/** The codes of the wire family that are said of it. */
export function wireFindings(of: WireMachine): string[] {
  return analyseWire(of)
    .findings.map(({ code }) => code)
    .filter((code) => code.startsWith('wire/'));
}
