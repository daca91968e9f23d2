import fs from 'node:fs';
import path from 'node:path';
import { createFettle } from '../../../server/core/fettle.ts';
import { EXAMPLE_FOLDER, readExample } from '../../support/example.ts';
import { worldOf } from '../../support/world.ts';

const SHEET = 'sheets/four-axis-bench-panel.part.yaml';

/** The product over the example, which shows every kind of number. */
export const fettle = createFettle(
  worldOf(new Map([[SHEET, fs.readFileSync(path.join(EXAMPLE_FOLDER, SHEET), 'utf8')]])),
);

/** The example, analysed. */
export const analyseExample = () => fettle.analyse('gantry-router.machine.yaml', readExample());
