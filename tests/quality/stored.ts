import fs from 'node:fs';
import path from 'node:path';
import type { Stored } from './part.ts';

export const STORED = path.join(import.meta.dirname, 'figures.json');

/** The figures that were made last. */
export const readStored = (): Stored =>
  fs.existsSync(STORED) ? (JSON.parse(fs.readFileSync(STORED, 'utf8')) as Stored) : {};
