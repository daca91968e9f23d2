import { coverage } from './coverage.ts';
import { fuzz } from './fuzz.ts';
import { gates } from './gates.ts';
import { memory } from './memory.ts';
import { mistakes } from './mistakes.ts';
import { mutation } from './mutation.ts';
import type { Part } from './part.ts';
import { size } from './size.ts';
import { speed } from './speed.ts';

/** The parts of the page, in its order. Gates that others run are told of after them. */
export const PARTS: readonly Part<unknown>[] = [
  speed,
  memory,
  coverage,
  mutation,
  mistakes,
  fuzz,
  gates,
  size,
].map((part) => part as unknown as Part<unknown>);
