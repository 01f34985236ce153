// How the language server is started, and for which documents. Nothing here needs the editor.
'use strict';

/** The two kinds of file, by the names of the manifest. */
const languages = ['stair', 'stair-rules'];
/** Files, texts that were never saved, and the sets that come with the tool, which the server gives. */
const schemes = ['file', 'untitled', 'pitchboard'];

/** What is run. It speaks over its pipes, and in no other way. */
function server(path) {
  return { command: path || 'pitchboard', args: ['lsp'] };
}

const documents = languages.flatMap((language) => schemes.map((scheme) => ({ scheme, language })));

module.exports = { languages, server, documents };
