import { later, said } from '../language/say.ts';
import type { Drawing } from './drawing/drawing.ts';
import type { Picture } from './pictures/picture.ts';
import type { Table } from './tables/table.ts';
import type { ViewElement } from './view.ts';

/** The sections of the wiring summary, in their order on the page. */
export const SECTIONS = [
  'title',
  'headline',
  'drawing',
  'inputs',
  'charts',
  'timing',
  'motion',
  'spindle',
  'lists',
  'settings',
  'commissioning',
  'cautions',
] as const;
export type Section = (typeof SECTIONS)[number];

const TITLES: Readonly<Record<Section, string>> = {
  title: later`Machine`,
  headline: later`At a glance`,
  drawing: later`Wiring drawing`,
  inputs: later`Inputs`,
  charts: later`Terminal charts`,
  timing: later`Pulse timing`,
  motion: later`Motion`,
  spindle: later`Spindle`,
  lists: later`Cut list and parts`,
  settings: later`Settings sheet`,
  commissioning: later`Commissioning list`,
  cautions: later`Cautions`,
};

/** The heading of a section, in the page and in the report. */
export const sectionTitle = (section: Section): string => said(TITLES[section]);

/** The name of the machine stands by itself, without a heading of its section. */
export const hasHeading = (section: Section): boolean => section !== 'title';

/**
 * One piece of the summary. Its id is stable over edits (`axis:X`, `part:drive-x`, `chart:panel`), so that a page can
 * keep what did not change; clickable places inside carry `data-id` with an id that `placeOf` finds in the text.
 */
export type SummaryItem = { readonly id: string; readonly section: Section } & (
  | { readonly kind: 'view'; readonly view: ViewElement }
  | { readonly kind: 'drawing'; readonly drawing: Drawing }
  | { readonly kind: 'table'; readonly table: Table }
  | { readonly kind: 'picture'; readonly picture: Picture }
);

/** The whole summary of one version of a machine. */
export interface Summary {
  readonly title: string;
  /** As the text says it; undefined where it says none. */
  readonly revision?: string;
  readonly items: readonly SummaryItem[];
  /** True while the text has errors that keep parts of it from being read: the page keeps its last good picture. */
  readonly broken: boolean;
}
