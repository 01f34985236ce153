// The TextMate grammars by the engine that Visual Studio Code has: each row of the table, and each example against what the
// server says its words are.
'use strict';
const fs = require('fs');
const path = require('path');
const { pathToFileURL } = require('url');
const onig = require('vscode-oniguruma');
const tm = require('vscode-textmate');
const { start } = require('./session.cjs');

const [tool, root] = process.argv.slice(2);
const here = path.join(root, '.ci/editors');
const syntaxes = path.join(root, 'grammar/vscode/syntaxes');
const files = { 'source.stair': 'stair.tmLanguage.json', 'source.stair-rules': 'rules.tmLanguage.json' };
const scopes = { stair: 'source.stair', rules: 'source.stair-rules' };

const classes = [
  ['comment.', 'comment'], ['string.', 'text'], ['constant.numeric.', 'figure'], ['invalid.', 'open'],
  ['keyword.other.kind.', 'kind'], ['keyword.control.block.', 'block'], ['keyword.operator.word.', 'clause'],
  ['constant.language.', 'word'], ['variable.other.quantity.', 'quantity'], ['entity.name.type.', 'thing'],
  ['support.type.property-name.stair-rules', 'part'], ['support.type.property-name.stair', 'property'],
];

function classOf(names) {
  const last = names[names.length - 1];
  const row = classes.find(([begins]) => last.startsWith(begins));
  return row ? row[1] : 'none';
}

/** What each character of a text is, a row a line. */
function coloured(grammar, text) {
  let stack = tm.INITIAL;
  return text.split('\n').map((line) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
    stack = ruleStack;
    const of = new Array(line.length).fill('none');
    for (const token of tokens) of.fill(classOf(token.scopes), token.startIndex, token.endIndex);
    return of;
  });
}

async function main() {
  const wasm = fs.readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm'));
  await onig.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new tm.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new onig.OnigScanner(patterns),
      createOnigString: (text) => new onig.OnigString(text),
    }),
    loadGrammar: async (scope) => {
      const file = path.join(syntaxes, files[scope]);
      return tm.parseRawGrammar(fs.readFileSync(file, 'utf8'), file);
    },
  });
  const grammars = {};
  for (const [language, scope] of Object.entries(scopes)) grammars[language] = await registry.loadGrammar(scope);
  let [wrong, rows] = [0, 0];
  const plain = (text) => text.replace(/\\(.)/g, (_, sign) => (sign === 'n' ? '\n' : sign));
  for (const row of fs.readFileSync(path.join(here, 'colours.tsv'), 'utf8').trimEnd().split('\n')) {
    if (row.startsWith('# ')) continue;
    const [language, text, words, wanted] = row.split('\t').map(plain);
    const of = coloured(grammars[language], text).map((line) => [...line, 'end']).flat();
    const at = text.indexOf(words);
    const is = [...new Set(of.slice(at, at + words.length))].join(' and ');
    rows += 1;
    if (is !== wanted) {
      wrong += 1;
      console.error(`${JSON.stringify(words)} of ${JSON.stringify(text)} is ${is}, not ${wanted}`);
    }
  }
  console.log(`${rows} rows of the table`);
  if (rows < 100) throw new Error('hardly any row was read');

  // What the server reads is what is so: comments, texts, kinds and properties of every example.
  const server = start(tool, {});
  await server.initialize({ general: { positionEncodings: ['utf-16'] } });
  const legend = server.can.semanticTokensProvider.legend.tokenTypes;
  const names = { comment: 'comment', string: 'text', keyword: 'kind', property: 'property', number: 'figure' };
  let compared = 0;
  for (const file of fs.readdirSync(path.join(root, 'examples')).filter((name) => name.endsWith('.stair'))) {
    const text = fs.readFileSync(path.join(root, 'examples', file), 'utf8');
    const uri = pathToFileURL(path.join(root, 'examples', file)).href;
    server.open(uri, 'stair', text);
    const { data } = await server.ask('textDocument/semanticTokens/full', { textDocument: { uri } });
    const of = coloured(grammars.stair, text);
    const lines = text.split('\n');
    const covered = lines.map((line) => new Array(line.length).fill(null));
    let [line, column] = [0, 0];
    for (let at = 0; at < data.length; at += 5) {
      column = data[at] ? data[at + 1] : column + data[at + 1];
      line += data[at];
      const name = names[legend[data[at + 3]]];
      covered[line].fill(name ?? 'other', column, column + data[at + 2]);
      if (!name) continue;
      const is = [...new Set(of[line].slice(column, column + data[at + 2]))].join(' and ');
      compared += 1;
      if (is !== name) {
        wrong += 1;
        console.error(`${file}:${line + 1}: ${lines[line].slice(column, column + data[at + 2])} is ${is}, not ${name}`);
      }
    }
    // And nothing else is a comment or a text.
    of.forEach((row, line) => row.forEach((is, column) => {
      if (['comment', 'text', 'open'].includes(is) && covered[line][column] !== is) {
        wrong += 1;
        console.error(`${file}:${line + 1}:${column + 1}: is no ${is}`);
      }
    }));
  }
  await server.end();
  console.log(`${compared} words of the examples, as the server reads them`);
  if (compared < 1000) throw new Error('hardly any word was compared');
  process.exit(wrong ? 1 : 0);
}

main().catch((why) => { console.error(why); process.exit(1); });
