import type { ViewElement } from '../view.ts';

/**
 * A picture with its words. Everything that it shows is said in `says` too, for those who cannot see it and for texts
 * that have no pictures.
 */
export interface Picture {
  readonly title: string;
  /** The id of the thing that it is about. */
  readonly titleId?: string;
  /** By itself it reads well on white; a style sheet gives it the colours of a theme. */
  readonly svg: ViewElement;
  readonly says: readonly string[];
  /** Names of the states between which the person may choose, where the picture has several; the first is shown. */
  readonly states?: readonly { readonly id: string; readonly title: string }[];
}
