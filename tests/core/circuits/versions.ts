import type { MachineAnalysis } from '../../../server/core/analysis.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';
import { SHEETS } from './call-otherwise.ts';

/** A server's core that knows the sheets of the bench parts. */
export const openBench = (): Fettle => createFettle(worldOf(SHEETS));

/** Reads the next version of a machine; texts under one name follow one another. */
export function analyse(fettle: Fettle, text: string, file = 'm.machine.yaml'): MachineAnalysis {
  const analysis = fettle.analyse(file, text);
  if (analysis.kind !== 'machine') throw new Error('not read as a machine');
  return analysis;
}
