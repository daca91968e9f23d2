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

/** Their headings, in the page and in the report. */
export const SECTION_TITLES: Readonly<Record<Section, string>> = {
  title: 'Machine',
  headline: 'At a glance',
  drawing: 'Wiring drawing',
  inputs: 'Inputs',
  charts: 'Terminal charts',
  timing: 'Pulse timing',
  motion: 'Motion',
  spindle: 'Spindle',
  lists: 'Cut list and parts',
  settings: 'Settings sheet',
  commissioning: 'Commissioning list',
  cautions: 'Cautions',
};

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
