import type { SummaryChanges } from '../../../server/protocol/private.ts';

/** What the extension tells the wiring summary page. Every message about a machine names it, so late ones are dropped. */
export type ToPage =
  /** Show this machine from now on. The page answers with `have`. */
  | { readonly kind: 'show'; readonly uri: string; readonly name: string }
  /** The machine may have changed. The page answers with `have` once it is not waiting for an earlier answer. */
  | { readonly kind: 'stale'; readonly uri: string }
  /** The answer to `have`: what differs. */
  | { readonly kind: 'changes'; readonly uri: string; readonly changes: SummaryChanges }
  /** The answer to `have` when the server gave none; the page keeps its picture and says why. */
  | { readonly kind: 'unavailable'; readonly uri: string; readonly why: string }
  /** The cursor stands on the thing with this id, or on none. */
  | { readonly kind: 'mark'; readonly uri: string; readonly id: string | null }
  /** No machine is open; `closed` names the one that was shown, so that the page can offer to open it. */
  | { readonly kind: 'empty'; readonly closed: { readonly uri: string; readonly name: string } | null };

/** What the page tells the extension. */
export type FromPage =
  /** The page has loaded, and showed this machine before it was hidden or the window was loaded anew. */
  | { readonly kind: 'ready'; readonly uri: string | null }
  /** What the page shows: the hash of each item by its id. */
  | { readonly kind: 'have'; readonly uri: string; readonly have: Readonly<Record<string, string>> }
  /** Select the text that says the thing with this id, and move the keyboard there. */
  | { readonly kind: 'go'; readonly uri: string; readonly id: string }
  /** Apply the cure with this title to the finding with this id. */
  | { readonly kind: 'fix'; readonly uri: string; readonly id: string; readonly title: string }
  /** Let the user save a text; the name is a proposal. */
  | { readonly kind: 'save'; readonly name: string; readonly text: string }
  /** Put a text into the clipboard. */
  | { readonly kind: 'copy'; readonly text: string }
  /** Open this file in an editor. */
  | { readonly kind: 'open'; readonly uri: string }
  /** Let the user pick a file to open. */
  | { readonly kind: 'pick' };

/** True when a value from the page has the shape of a message. Unknown kinds are for versions to come: left alone. */
export function isFromPage(value: unknown): value is FromPage {
  if (typeof value !== 'object' || value === null) return false;
  const { kind, uri, id, have, title, name, text } = value as Record<string, unknown>;
  switch (kind) {
    case 'ready':
      return uri === null || typeof uri === 'string';
    case 'have':
      return typeof uri === 'string' && typeof have === 'object' && have !== null;
    case 'go':
      return typeof uri === 'string' && typeof id === 'string';
    case 'fix':
      return typeof uri === 'string' && typeof id === 'string' && typeof title === 'string';
    case 'save':
      return typeof name === 'string' && typeof text === 'string';
    case 'copy':
      return typeof text === 'string';
    case 'open':
      return typeof uri === 'string';
    case 'pick':
      return true;
    default:
      return false;
  }
}
