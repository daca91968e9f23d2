import type { Circuit, Sheet } from '../model/sheet.ts';
import { type Draft, supplyOf, TRIED } from './draft.ts';

/** A terminal of the part that is tried, by the place that it has among a circuit's ends. */
export const endOf = ({ ends }: Circuit, place: number): string => `${TRIED}.${ends[place]?.text ?? ''}`;

/** The voltage on which a part is tried: the middle of what it takes, 24 V where its sheet does not say. */
export function voltageFor({ circuits }: Sheet): number {
  const input = [...circuits.values()].find(({ kind }) => kind === 'power-in' || kind === 'sensor');
  const span = input?.figures.span('voltage')?.value;
  return span ? (span.least.value + span.most.value) / 2 : 24;
}

/** Feeds whatever a part takes: direct voltage, mains, earth, three phases. */
export function feedAll(sheet: Sheet): Draft {
  const links = [...sheet.circuits.values()].flatMap((circuit): [string, string][] => {
    const [first, second] = [endOf(circuit, 0), endOf(circuit, 1)];
    switch (circuit.kind) {
      case 'power-in':
      case 'sensor':
        return [
          ['psu.V+', first],
          ['psu.V-', second],
        ];
      case 'mains-in':
        return [
          ['mains.L', first],
          ['mains.N', second],
        ];
      case 'earth':
        return [['mains.PE', first]];
      default:
        return [];
    }
  });
  return { parts: { psu: supplyOf(voltageFor(sheet)) }, links };
}
