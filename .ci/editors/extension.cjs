// The extension's own half, as it is packed, on the client library of Visual Studio Code. The editor itself is not here: of it
// there is as little as the library asks for. It is activated, starts the server, opens a faulty design and is told of it.
'use strict';
const assert = require('assert');
const fs = require('fs');
const Module = require('module');
const path = require('path');
const { pathToFileURL } = require('url');

const [folder, tool, file] = process.argv.slice(2);
const manifest = JSON.parse(fs.readFileSync(path.join(folder, 'package.json'), 'utf8'));
const text = fs.readFileSync(file, 'utf8');

class Emitter {
  constructor() { this.heard = []; this.event = (hear) => { this.heard.push(hear); return { dispose() {} }; }; }
  fire(told) { this.heard.forEach((hear) => hear(told)); }
  dispose() {}
}
class Position {
  constructor(line, character) { this.line = line; this.character = character; }
}
class Range {
  constructor(...at) { [this.start, this.end] = at.length === 2 ? at : [new Position(at[0], at[1]), new Position(at[2], at[3])]; }
}
class Diagnostic {
  constructor(range, message, severity) { Object.assign(this, { range, message, severity }); }
}
class Uri {
  constructor(href) { this.href = href; const url = new URL(href); this.scheme = url.protocol.slice(0, -1); this.fsPath = decodeURIComponent(url.pathname); this.path = this.fsPath; }
  static parse(href) { return new Uri(href); }
  static file(name) { return new Uri(pathToFileURL(name).href); }
  toString() { return this.href; }
}
class Kind {
  constructor(value) { this.value = value; }
  append(more) { return new Kind(this.value ? `${this.value}.${more}` : more); }
}
Object.assign(Kind, { Empty: new Kind(''), QuickFix: new Kind('quickfix'), Refactor: new Kind('refactor'), Source: new Kind('source') });
const disposable = { dispose() {} };
const never = () => disposable;
const published = new Map();
let ending = false;
let told;
const found = new Promise((resolve) => { told = resolve; });
const document = {
  uri: Uri.file(file), fileName: file, languageId: 'stair', version: 1, isClosed: false, isDirty: false,
  getText: () => text, lineCount: text.split('\n').length,
};
class TabInputText {
  constructor(uri) { this.uri = uri; }
}
const tab = { input: new TabInputText(document.uri), isActive: true };
const settings = { 'pitchboard.path': tool };

/** Whatever else the library takes from the editor: a class, or a table of numbers. */
const open = (known) => new Proxy(known, {
  get(target, name) {
    if (name in target || typeof name === 'symbol') return target[name];
    target[name] = class { static [Symbol.hasInstance]() { return false; } };
    return target[name];
  },
});
const events = (known) => new Proxy(known, {
  get: (target, name) => (name in target ? target[name] : /^(on|register|create)/.test(String(name)) ? never : undefined),
});
const vscode = open({
  EventEmitter: Emitter, CodeActionKind: Kind, TabInputText, Position, Range, Diagnostic, Uri,
  Disposable: class { constructor(end) { this.dispose = end; } static from() { return disposable; } },
  DiagnosticSeverity: { Error: 0, Warning: 1, Information: 2, Hint: 3 },
  CancellationTokenSource: class { constructor() { this.token = { isCancellationRequested: false, onCancellationRequested: never }; } dispose() {} cancel() {} },
  version: manifest.engines.vscode.replace('^', ''),
  env: { appName: 'none', language: 'en' },
  workspace: events({
    textDocuments: [document], workspaceFolders: undefined, notebookDocuments: [],
    getConfiguration: (section) => ({ get: (name, otherwise) => settings[section ? `${section}.${name}` : name] ?? otherwise }),
    createFileSystemWatcher: () => ({ onDidCreate: never, onDidChange: never, onDidDelete: never, dispose() {} }),
  }),
  window: events({
    visibleTextEditors: [{ document }], activeTextEditor: { document },
    tabGroups: { all: [{ tabs: [tab], activeTab: tab }], onDidChangeTabs: never },
    createOutputChannel: () => ({ logLevel: 3, onDidChangeLogLevel: never, append() {}, appendLine() {}, show() {}, dispose() {}, info() {}, error() {}, warn() {}, debug() {}, trace() {} }),
    // As it ends, the library may still ask what nobody answers.
    showErrorMessage: async (why) => { if (!ending) throw new Error(why); },
  }),
  languages: events({
    match: (selector, of) => [selector].flat().some((one) => one.language === of.languageId && one.scheme === of.uri.scheme) ? 10 : 0,
    createDiagnosticCollection: () => ({
      set(uri, list) { published.set(String(uri), list); told(list); }, delete() {}, clear() {}, dispose() {},
    }),
  }),
  commands: events({ executeCommand: async () => undefined }),
  extensions: events({ all: [], getExtension: () => undefined }),
  l10n: { t: (said) => said },
});
const load = Module._load;
Module._load = (name, ...rest) => (name === 'vscode' ? vscode : load(name, ...rest));

async function main() {
  const extension = require(path.join(folder, manifest.main));
  const context = { subscriptions: [] };
  await extension.activate(context);
  assert.strictEqual(context.subscriptions.length, 1);
  const late = setTimeout(() => { console.error('nothing was told'); process.exit(1); }, 60000);
  const list = await found;
  clearTimeout(late);
  const tall = list.find((one) => /height is 8"/.test(one.message));
  const line = text.split('\n')[tall.range.start.line];
  const words = line.slice(tall.range.start.character, tall.range.end.character);
  assert.strictEqual(words, '3 of 8"');
  ending = true;
  await extension.deactivate();
  console.log(`extension: ${words}`);
  process.exit(0);
}

main().catch((why) => { console.error(why); process.exit(1); });
