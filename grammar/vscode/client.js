// The editor's half: it starts the server and hands it the documents.
'use strict';

const vscode = require('vscode');
const { LanguageClient } = require('vscode-languageclient/node');
const { documents, server } = require('./server');

let client;

/** Called by the editor when a file of either language is opened. */
async function activate(context) {
  const path = vscode.workspace.getConfiguration('pitchboard').get('path');
  client = new LanguageClient('pitchboard', 'Pitchboard', server(path), { documentSelector: documents });
  context.subscriptions.push(client);
  await client.start();
}

/** Called by the editor before it ends. */
function deactivate() {
  return client && client.stop();
}

module.exports = { activate, deactivate };
