import * as vscode from 'vscode';

interface Sample extends vscode.QuickPickItem {
  readonly folder: string;
  readonly file: string;
}

/** Opens a copy of an example that ships, so that everything in it can be tried out. */
export async function openSample(context: vscode.ExtensionContext): Promise<void> {
  const examples = vscode.Uri.joinPath(context.extensionUri, 'examples');
  const chosen = await vscode.window.showQuickPick(listSamples(examples), {
    title: vscode.l10n.t('Open a sample machine'),
    placeHolder: vscode.l10n.t('A copy is opened; the sample itself stays as it is'),
    matchOnDescription: true,
    matchOnDetail: true,
  });
  if (chosen === undefined) return;
  const { folder, file } = chosen;
  const copy = vscode.Uri.joinPath(context.globalStorageUri, 'samples', folder);
  if (!(await exists(copy))) await vscode.workspace.fs.copy(vscode.Uri.joinPath(examples, folder), copy);
  await vscode.window.showTextDocument(vscode.Uri.joinPath(copy, file), { preview: false });
}

/** The machines that ship, each as it calls and describes itself. */
async function listSamples(examples: vscode.Uri): Promise<Sample[]> {
  const entries = await vscode.workspace.fs.readDirectory(examples);
  const folders = entries.filter(([, type]) => type === vscode.FileType.Directory).map(([name]) => name);
  const samples = folders.sort().map(async (folder): Promise<Sample[]> => {
    const inside = await vscode.workspace.fs.readDirectory(vscode.Uri.joinPath(examples, folder));
    const file = inside.map(([name]) => name).find((name) => name.endsWith('.machine.yaml'));
    if (file === undefined) return [];
    const text = new TextDecoder().decode(
      await vscode.workspace.fs.readFile(vscode.Uri.joinPath(examples, folder, file)),
    );
    const say = (key: string) => new RegExp(`^${key}: *(.+?) *$`, 'm').exec(text)?.[1] ?? '';
    return [{ label: say('machine'), description: folder, detail: say('about'), folder, file }];
  });
  return (await Promise.all(samples)).flat();
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
