import * as vscode from 'vscode';

/** As much as is used of the interface that the editor's git support gives to other extensions. */
interface GitExtension {
  /** False where git is switched off in the settings, or is not installed. */
  readonly enabled: boolean;
  readonly getAPI: (version: 1) => { readonly getRepository: (uri: vscode.Uri) => Repository | null };
}
interface Repository {
  readonly state: { readonly HEAD?: { readonly commit?: string } | undefined };
  readonly show: (revision: string, path: string) => Promise<string>;
  readonly diffWithHEAD: () => Promise<
    readonly { readonly uri: vscode.Uri; readonly originalUri: vscode.Uri }[]
  >;
}

/** Texts as they stood in HEAD, or why they cannot be had, in words for the person. */
export type TextsInHead =
  | { readonly kind: 'texts'; readonly texts: readonly { readonly uri: vscode.Uri; readonly text: string }[] }
  | { readonly kind: 'unavailable'; readonly why: string };

/** A file as it stood in HEAD, with every part sheet of its repository that has changed since. */
export async function readFromHead(uri: vscode.Uri): Promise<TextsInHead> {
  const extension = vscode.extensions.getExtension<GitExtension>('vscode.git');
  const git = await extension?.activate();
  if (!git?.enabled)
    return {
      kind: 'unavailable',
      why: vscode.l10n.t(
        'The editor\'s git support is off or not there. On the command line, "fettle diff --git HEAD FILE" does the same.',
      ),
    };
  const repository = git.getAPI(1).getRepository(uri);
  if (!repository)
    return {
      kind: 'unavailable',
      why: vscode.l10n.t('This file is not in a git repository that is open here.'),
    };
  if (repository.state.HEAD?.commit === undefined)
    return {
      kind: 'unavailable',
      why: vscode.l10n.t('This repository has no commit yet, so there is nothing to compare with.'),
    };
  const changed = await repository.diffWithHEAD();
  const sheets = changed.filter(
    ({ uri: each }) => /\.part\.ya?ml$/i.test(each.path) && each.toString() !== uri.toString(),
  );
  const texts = [
    { uri, text: await textInHead(repository, uri) },
    ...(await Promise.all(
      sheets.map(async (sheet) => ({
        uri: sheet.uri,
        text: await textInHead(repository, sheet.originalUri),
      })),
    )),
  ];
  return { kind: 'texts', texts };
}

/** Empty for a file that HEAD does not have. */
async function textInHead(repository: Repository, uri: vscode.Uri): Promise<string> {
  try {
    return await repository.show('HEAD', uri.fsPath);
  } catch {
    return '';
  }
}
