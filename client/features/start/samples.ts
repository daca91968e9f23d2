import * as vscode from 'vscode';

/** Opens a copy of an example that ships, so that everything in it can be tried out. */
export async function openSample(context: vscode.ExtensionContext): Promise<void> {
  const examples = vscode.Uri.joinPath(context.extensionUri, 'examples');
  const folders = (await vscode.workspace.fs.readDirectory(examples)).filter(
    ([, type]) => type === vscode.FileType.Directory,
  );
  const name = await vscode.window.showQuickPick(folders.map(([label]) => label).sort(), {
    title: 'Open a sample machine',
    placeHolder: 'A copy is opened; the sample itself stays as it is',
  });
  if (name === undefined) return;
  const copy = vscode.Uri.joinPath(context.globalStorageUri, 'samples', name);
  if (!(await exists(copy))) await vscode.workspace.fs.copy(vscode.Uri.joinPath(examples, name), copy);
  const machine = (await vscode.workspace.fs.readDirectory(copy)).find(([file]) =>
    file.endsWith('.machine.yaml'),
  );
  if (!machine) throw new Error(`there is no machine in ${name}`);
  await vscode.window.showTextDocument(vscode.Uri.joinPath(copy, machine[0]), { preview: false });
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
