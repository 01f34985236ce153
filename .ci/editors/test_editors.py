"""The server under the capabilities that three editors announce, as pytest-lsp has them."""
import os
import pathlib
import shutil
import subprocess

import pytest
import pytest_lsp
from lsprotocol import types
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities

TOOL = os.environ["TOOL"]
FAULTY = pathlib.Path(os.environ["FAULTY"])


def units(text, encoding):
    """A text as the units that an editor counts."""
    width = {"utf-8": ("utf-8", 1), "utf-16": ("utf-16-le", 2), "utf-32": ("utf-32-le", 4)}[encoding]
    return text.encode(width[0]), width


def slice_of(line, start, end, encoding):
    data, (name, width) = units(line, encoding)
    return data[start * width : end * width].decode(name)


@pytest_lsp.fixture(
    config=ClientServerConfig(server_command=[TOOL, "lsp"]),
    params=["visual_studio_code", "neovim", "emacs"],
)
async def client(request, lsp_client: LanguageClient):
    @lsp_client.feature(types.CLIENT_REGISTER_CAPABILITY)
    def registered(params: types.RegistrationParams):
        return None

    told = await lsp_client.initialize_session(
        types.InitializeParams(capabilities=client_capabilities(request.param), root_uri=None)
    )
    agreed = told.capabilities.position_encoding or "utf-16"
    lsp_client.encoding = getattr(agreed, "value", agreed)
    lsp_client.pulls = told.capabilities.diagnostic_provider is not None
    yield
    await lsp_client.shutdown_session()


async def findings(client, uri, version):
    """Pushed, or pulled where the editor says that it pulls."""
    if client.pulls:
        report = await client.text_document_diagnostic_async(
            types.DocumentDiagnosticParams(text_document=types.TextDocumentIdentifier(uri=uri))
        )
        return report.items
    while True:
        await client.wait_for_notification(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
        return client.diagnostics[uri]


def mended(text, edits, encoding):
    lines = text.split("\n")
    name, width = units("", encoding)[1]

    def byte(at):
        before = "\n".join(lines[: at.line]) + ("\n" if at.line else "")
        return len(before + slice_of(lines[at.line], 0, at.character, encoding))

    for edit in sorted(edits, key=lambda edit: byte(edit.range.start), reverse=True):
        text = text[: byte(edit.range.start)] + edit.new_text + text[byte(edit.range.end) :]
    return text


@pytest.mark.asyncio
async def test_a_mend(client: LanguageClient, tmp_path, request):
    folder = tmp_path / "reed hide"
    folder.mkdir()
    path = folder / "reed hide.stair"
    shutil.copy(FAULTY, path)
    uri, text = path.as_uri(), path.read_text()
    client.text_document_did_open(
        types.DidOpenTextDocumentParams(
            text_document=types.TextDocumentItem(uri=uri, language_id="stair", version=1, text=text)
        )
    )
    found = await findings(client, uri, 1)
    tall = next(one for one in found if one.code == "riser height")
    line = text.split("\n")[tall.range.start.line]
    start, end = tall.range.start.character, tall.range.end.character
    assert slice_of(line, start, end, client.encoding) == '3 of 8"'
    assert any(ord(sign) > 0xFFFF for sign in slice_of(line, 0, start, client.encoding))
    hover = await client.text_document_hover_async(
        types.HoverParams(text_document=types.TextDocumentIdentifier(uri=uri), position=tall.range.start)
    )
    assert "riser height" in getattr(hover.contents, "value", str(hover.contents))
    actions = await client.text_document_code_action_async(
        types.CodeActionParams(
            text_document=types.TextDocumentIdentifier(uri=uri),
            range=tall.range,
            context=types.CodeActionContext(diagnostics=[tall], only=["quickfix"]),
        )
    )
    mend = next(one for one in actions if one.edit and one.title.endswith("It mends riser height"))
    if mend.edit.document_changes:
        [change] = mend.edit.document_changes
        edits = change.edits
    else:
        edits = mend.edit.changes[uri]
    text = mended(text, edits, client.encoding)
    client.text_document_did_change(
        types.DidChangeTextDocumentParams(
            text_document=types.VersionedTextDocumentIdentifier(uri=uri, version=2),
            content_changes=[types.TextDocumentContentChangeWholeDocument(text=text)],
        )
    )
    left = [one for one in await findings(client, uri, 2) if one.severity == types.DiagnosticSeverity.Error]
    assert left == []
    path.write_text(text)
    checked = subprocess.run([TOOL, "check", "--as", "quiet", str(path)], capture_output=True, text=True)
    assert checked.returncode == 0, checked.stdout + checked.stderr
    print(request.node.name, client.encoding, "pulled" if client.pulls else "pushed", mend.title)
