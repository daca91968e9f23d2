import type * as vscode from 'vscode';
import { start } from './activate.ts';
import { createNodeClient } from './features/language-client/node-client.ts';

export { deactivate } from './activate.ts';

/** Called by the editor when one of our files opens. */
export function activate(context: vscode.ExtensionContext): Promise<void> {
  return start(context, createNodeClient);
}
