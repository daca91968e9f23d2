// A file system in memory, whose files stand in files.json beside this script, by their paths.
const vscode = require('vscode');

const FILE = vscode.FileType.File;
const FOLDER = vscode.FileType.Directory;

exports.activate = async (context) => {
  const list = vscode.Uri.joinPath(context.extensionUri, 'files.json');
  const texts = JSON.parse(new TextDecoder().decode(await vscode.workspace.fs.readFile(list)));
  const files = new Map(Object.entries(texts).map(([path, text]) => [path, new TextEncoder().encode(text)]));
  const changed = new vscode.EventEmitter();
  const namesIn = (path) => {
    const base = path.endsWith('/') ? path : `${path}/`;
    const inside = [...files.keys()].filter((file) => file.startsWith(base));
    const steps = inside.map((file) => file.slice(base.length).split('/'));
    return new Map(steps.map(([name, ...rest]) => [name, rest.length > 0 ? FOLDER : FILE]));
  };
  const contentOf = ({ path }) => {
    const bytes = files.get(path);
    if (!bytes) throw vscode.FileSystemError.FileNotFound(path);
    return bytes;
  };
  const provider = {
    onDidChangeFile: changed.event,
    watch: () => new vscode.Disposable(() => undefined),
    stat: (uri) => {
      const isFolder = namesIn(uri.path).size > 0;
      const size = isFolder ? 0 : contentOf(uri).length;
      return { type: isFolder ? FOLDER : FILE, ctime: 0, mtime: 0, size };
    },
    readDirectory: ({ path }) => [...namesIn(path)],
    readFile: contentOf,
    writeFile: (uri, bytes) => {
      const type = files.has(uri.path) ? vscode.FileChangeType.Changed : vscode.FileChangeType.Created;
      files.set(uri.path, bytes);
      changed.fire([{ type, uri }]);
    },
    delete: (uri) => {
      files.delete(uri.path);
      changed.fire([{ type: vscode.FileChangeType.Deleted, uri }]);
    },
    rename: () => {
      throw vscode.FileSystemError.NoPermissions('not needed by any test');
    },
    createDirectory: () => undefined,
  };
  context.subscriptions.push(vscode.workspace.registerFileSystemProvider('memory', provider));
};
