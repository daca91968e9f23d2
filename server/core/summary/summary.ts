import type { Drawing } from './drawing/drawing.ts';
import type { ViewElement } from './view.ts';

/** The sections of the wiring summary, in their order on the page. */
export const SECTIONS = [
  'headline',
  'drawing',
  'inputs',
  'charts',
  'settings',
  'commissioning',
  'cautions',
] as const;
export type Section = (typeof SECTIONS)[number];

/** Their headings, in the page and in the report. */
export const SECTION_TITLES: Readonly<Record<Section, string>> = {
  headline: 'At a glance',
  drawing: 'Wiring drawing',
  inputs: 'Inputs',
  charts: 'Terminal charts',
  settings: 'Settings sheet',
  commissioning: 'Commissioning list',
  cautions: 'Cautions',
};

/**
 * One piece of the summary. Its id is stable over edits (`axis:X`, `part:drive-x`, `chart:panel`), so that a page can
 * keep what did not change; clickable places inside carry `data-id` with an id that `placeOf` finds in the text.
 */
export type SummaryItem = { readonly id: string; readonly section: Section } & (
  | { readonly kind: 'view'; readonly view: ViewElement }
  | { readonly kind: 'drawing'; readonly drawing: Drawing }
);

/** The whole summary of one version of a machine. */
export interface Summary {
  readonly title: string;
  readonly items: readonly SummaryItem[];
  /** True while the text has errors that keep parts of it from being read: the page keeps its last good picture. */
  readonly broken: boolean;
}
