import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  PLACE_OF,
  type PlaceOf,
  type PlaceOfParams,
  THING_AT,
  type ThingAtParams,
} from '../../../server/protocol/private.ts';
import { chooseColumn } from './machines.ts';

/** Rests this long after the last cursor move before asking what the cursor stands on. */
const REST_MS = 60;

/** Both directions between page and text, with the guard that keeps one from setting off the other. */
export interface Places {
  /** Selects the text that says a thing and moves the keyboard there, in a column other than the given one. */
  readonly select: (params: PlaceOfParams, avoid: vscode.ViewColumn | undefined) => Promise<void>;
  readonly dispose: () => void;
}

/**
 * Watches the cursor in the machine that `shown` names and reports the thing it stands on. A selection that `select`
 * made is never reported back, so page and text cannot chase each other.
 */
export function linkPlaces(
  client: BaseLanguageClient,
  shown: () => vscode.Uri | undefined,
  marked: (uri: string, id: string | null) => void,
): Places {
  let ours: { readonly uri: string; readonly range: vscode.Range } | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;

  const ask = async (editor: vscode.TextEditor): Promise<void> => {
    const turn = ++asked;
    const uri = client.code2ProtocolConverter.asUri(editor.document.uri);
    const params: ThingAtParams = { uri, position: editor.selection.active };
    const id = await client.sendRequest<string | null>(THING_AT, params).catch(() => null);
    if (turn === asked) marked(uri, id);
  };

  const listener = vscode.window.onDidChangeTextEditorSelection(({ textEditor, selections }) => {
    const uri = textEditor.document.uri.toString();
    const [selection] = selections;
    if (uri !== shown()?.toString() || selection === undefined || selections.length > 1) return;
    if (ours?.uri === uri && ours.range.isEqual(selection)) return;
    ours = undefined;
    clearTimeout(timer);
    timer = setTimeout(() => void ask(textEditor), REST_MS);
  });

  return {
    select: async (params, avoid) => {
      const place = await client.sendRequest<PlaceOf | null>(PLACE_OF, params);
      if (place === null) return;
      const uri = client.protocol2CodeConverter.asUri(place.uri);
      const { start, end } = place.range;
      const range = new vscode.Range(start.line, start.character, end.line, end.character);
      ours = { uri: uri.toString(), range };
      await showRange(uri, range, avoid);
    },
    dispose: () => {
      clearTimeout(timer);
      listener.dispose();
    },
  };
}

async function showRange(
  uri: vscode.Uri,
  range: vscode.Range,
  avoid: vscode.ViewColumn | undefined,
): Promise<void> {
  const editor = await vscode.window.showTextDocument(uri, {
    viewColumn: chooseColumn(uri, avoid),
    selection: range,
  });
  editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}
