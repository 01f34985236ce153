// An editor on the protocol library of Visual Studio Code: opens a faulty design, sees the finding under its words, hovers,
// takes the mend, sees the finding gone, saves.
'use strict';
const assert = require('assert');
const fs = require('fs');
const { pathToFileURL } = require('url');
const { start } = require('./session.cjs');

const [tool, file] = process.argv.slice(2);

async function main() {
  const session = start(tool, {});
  await session.initialize({
    general: { positionEncodings: ['utf-16'] },
    textDocument: {
      publishDiagnostics: { relatedInformation: true },
      codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source.fixAll'] } } },
    },
    workspace: { workspaceEdit: { documentChanges: true } },
  });
  assert.strictEqual(session.can.positionEncoding, 'utf-16');
  const uri = pathToFileURL(file).href;
  let text = fs.readFileSync(file, 'utf8');
  await session.open(uri, 'stair', text);
  const tall = (await session.found(uri, 1)).find((one) => one.code === 'riser height');
  const line = text.split('\n')[tall.range.start.line];
  const words = line.slice(tall.range.start.character, tall.range.end.character);
  assert.strictEqual(words, '3 of 8"');
  assert.ok(/[\u{10000}-\u{10ffff}]/u.test(line.slice(0, tall.range.start.character)), 'a wide sign stands before it');
  const hover = await session.ask('textDocument/hover', { textDocument: { uri }, position: tall.range.start });
  assert.ok(hover.contents.value.includes('riser height'), hover.contents.value);
  const actions = await session.ask('textDocument/codeAction', {
    textDocument: { uri }, range: tall.range, context: { diagnostics: [tall], only: ['quickfix'] },
  });
  const mend = actions.find((action) => action.edit && action.title.endsWith('It mends riser height'));
  const [change] = mend.edit.documentChanges;
  assert.strictEqual(change.textDocument.version, 1);
  const lines = text.split('\n');
  const offset = ({ line, character }) => lines.slice(0, line).reduce((sum, one) => sum + one.length + 1, character);
  for (const edit of [...change.edits].sort((a, b) => offset(b.range.start) - offset(a.range.start))) {
    text = text.slice(0, offset(edit.range.start)) + edit.newText + text.slice(offset(edit.range.end));
  }
  await session.tell('textDocument/didChange', { textDocument: { uri, version: 2 }, contentChanges: [{ text }] });
  const left = (await session.found(uri, 2)).filter((one) => one.severity === 1);
  assert.deepStrictEqual(left, []);
  fs.writeFileSync(file, text);
  assert.strictEqual(await session.end(), 0);
  console.log(`node: "${words}", mended by "${mend.title}"`);
}

main().catch((why) => { console.error(why); process.exit(1); });
