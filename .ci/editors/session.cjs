// A session with the server over the protocol library of Visual Studio Code.
'use strict';
const { spawn } = require('child_process');
const {
  createProtocolConnection, StreamMessageReader, StreamMessageWriter,
} = require('vscode-languageserver-protocol/node');

/** Starts the server as the extension does, or by the command given. */
function start(command, options) {
  const child = spawn(command, ['lsp'], { stdio: ['pipe', 'pipe', 'inherit'], ...options });
  const ended = new Promise((resolve) => { child.on('exit', resolve); });
  const connection = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  const published = new Map();
  let waiting = [];
  const look = () => { waiting = waiting.filter((one) => !one()); };
  connection.onNotification('textDocument/publishDiagnostics', (params) => {
    published.set(params.uri, params);
    look();
  });
  connection.onRequest('client/registerCapability', () => null);
  connection.listen();
  const session = {
    connection,
    can: undefined,
    ask: (method, params) => connection.sendRequest(method, params),
    tell: (method, params) => connection.sendNotification(method, params),
    async initialize(capabilities) {
      const told = await session.ask('initialize', { processId: process.pid, rootUri: null, capabilities });
      session.can = told.capabilities;
      await session.tell('initialized', {});
      return told;
    },
    open(uri, languageId, text) {
      return session.tell('textDocument/didOpen', { textDocument: { uri, languageId, version: 1, text } });
    },
    /** What is published of a document at a version. */
    found(uri, version) {
      return new Promise((resolve, reject) => {
        const late = setTimeout(() => reject(new Error(`nothing is published of version ${version}`)), 60000);
        waiting.push(() => {
          const told = published.get(uri);
          if (!told || told.version !== version) return false;
          clearTimeout(late);
          resolve(told.diagnostics);
          return true;
        });
        look();
      });
    },
    /** Ends it in order; the exit code. */
    async end() {
      await session.ask('shutdown');
      await session.tell('exit');
      return ended;
    },
  };
  return session;
}

module.exports = { start };
