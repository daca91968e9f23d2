import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';

/** A part of the page: figures of one kind, how they are made, and how they are shown. */
export interface Part<Figures> {
  readonly name: string;
  readonly title: string;
  /** What is measured, and how to read it. */
  readonly about: string;
  /** What makes the figures, as arguments of Node; absent where they are read of what is there. */
  readonly make?: readonly string[];
  /** Reads the figures that were made. What is stored of before is for those that are made bit by bit. */
  readonly read: (before: Figures | undefined) => Figures;
  /** Markdown below the heading: tables, and sentences where one must be said. */
  readonly show: (figures: Figures) => string;
}

/** Figures with where and when they were made. */
export interface Made<Figures = unknown> {
  /** The day, as in 2026-11-29. */
  readonly day: string;
  /** The kind of machine; it says nothing that would tell one machine from another of its kind. */
  readonly machine: string;
  readonly figures: Figures;
}

/** All figures, by the names of their parts: what is stored, and what the page is made from. */
export type Stored = Readonly<Record<string, Made>>;

/** Reads what a program wrote in this run. Throws where it wrote nothing, so that no old figure passes for a new one. */
export function readReport<T>(file: string): T {
  const place = path.join(ROOT, '.cache', file);
  if (!fs.existsSync(place) || fs.statSync(place).mtimeMs < performance.timeOrigin)
    throw new Error(`.cache/${file} was not written in this run`);
  return JSON.parse(fs.readFileSync(place, 'utf8')) as T;
}

/** A figure that may be missing, since the system did not tell it or JSON has no word for it. */
export function figure(value: number | null | undefined, digits: number): string {
  if (value === null || value === undefined || Number.isNaN(value)) return 'not told by this system';
  return value.toLocaleString('en', { minimumFractionDigits: digits, maximumFractionDigits: digits });
}

/** A share in percent; of nothing it is not a figure. */
export const percent = (part: number, all: number): string =>
  all === 0 ? 'none' : `${figure((100 * part) / all, 1)} %`;
