// Puts a real VS Code server (workbench and Node extension host) into .vscode-host/, from the npm registry alone.
// The npm package code-server carries it; its own wrapper and install scripts, which download, are not used.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root } from '../../.scripts/run.mjs';

const version = '4.100.3'; // carries VS Code 1.100.3, the oldest that the extension declares, and runs on Node 20
const ripgrepVersion = '1.18.0';

/** The folder of the installed server; installs it when it is not there. Throws a sentence. */
export function installHost() {
  const folder = path.join(root, '.vscode-host', `code-server-${version}`);
  const stamp = path.join(folder, '.installed');
  if (existsSync(stamp)) return folder;
  console.log(`Installing VS Code's server (code-server ${version} from the npm registry) …`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  unpack(`code-server@${version}`, folder);
  const server = path.join(folder, 'lib', 'vscode');
  installDependencies(server);
  addRipgrep(server);
  const asar = path.join(server, 'node_modules.asar');
  if (!existsSync(asar)) symlinkSync('node_modules', asar, 'junction');
  writeFileSync(stamp, '');
  return folder;
}

/** What an install script of the server would download; `findFiles` and activation by file pattern need it. */
function addRipgrep(server) {
  const target = path.join(server, 'node_modules', '@vscode', 'ripgrep');
  if (!existsSync(target)) return;
  unpack(`@vscode/ripgrep-${process.platform}-${process.arch}@${ripgrepVersion}`, target, ['package/bin']);
}

function installDependencies(folder) {
  // Not `npm ci`: the server's shrinkwrap leaves out packages of other platforms, which `ci` refuses.
  npm(['install', '--omit=dev', '--no-audit', '--no-fund'], folder);
}

function unpack(packageName, folder, members = []) {
  npm(['pack', packageName], folder);
  const archive = readdirSync(folder).find((name) => name.endsWith('.tgz'));
  if (!archive) throw new Error(`npm pack ${packageName} left no archive in ${folder}.`);
  must('tar', ['-xzf', archive, '--strip-components=1', '--exclude=*.map', ...members], folder);
  rmSync(path.join(folder, archive));
}

function npm(args, folder) {
  // The server's packages name other engines than the project's own settings would accept.
  const all = [...args, '--ignore-scripts', '--engine-strict=false', '--loglevel=error'];
  const script = process.env.npm_execpath;
  if (script?.endsWith('.js')) must(process.execPath, [script, ...all], folder);
  else must('npm', all, folder, process.platform === 'win32');
}

function must(command, args, folder, shell = false) {
  const result = spawnSync(command, args, { cwd: folder, shell, encoding: 'utf8' });
  if (result.status === 0) return;
  const said = `${result.stdout ?? ''}${result.stderr ?? result.error}`;
  throw new Error(`${command} ${args.join(' ')} failed in ${folder}:\n${said}`);
}
