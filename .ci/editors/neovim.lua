-- Neovim, as its user has it: opens a faulty design, sees the finding under its words, hovers, takes the mend, sees the
-- finding gone, saves.
local function fail(why)
  io.stderr:write("neovim: " .. vim.inspect(why) .. "\n")
  vim.cmd("cquit")
end

local function soon(what, found)
  local ok = vim.wait(60000, found, 20)
  if not ok then
    fail(what)
  end
end

local function tall()
  for _, one in ipairs(vim.diagnostic.get(0)) do
    if one.source == "pitchboard" and one.message:find("height is 8", 1, true) then
      return one
    end
  end
end

local function run()
  soon("no finding", tall)
  local one = tall()
  local line = vim.api.nvim_buf_get_lines(0, one.lnum, one.lnum + 1, true)[1]
  local words = line:sub(one.col + 1, one.end_col)
  assert(words == '3 of 8"', words)
  assert(line:sub(1, one.col):find("[\240-\244]"), "a wide sign stands before it")
  vim.api.nvim_win_set_cursor(0, { one.lnum + 1, one.col })
  local where = vim.lsp.util.make_position_params(0, "utf-16")
  local hovers = vim.lsp.buf_request_sync(0, "textDocument/hover", where, 60000)
  local _, hover = next(hovers)
  assert(hover.result.contents.value:find("riser height", 1, true), vim.inspect(hovers))
  local range = vim.lsp.util.make_range_params(0, "utf-16")
  range.context = { diagnostics = vim.lsp.diagnostic.get_line_diagnostics(0, one.lnum), only = { "quickfix" } }
  local answers = vim.lsp.buf_request_sync(0, "textDocument/codeAction", range, 60000)
  local _, answer = next(answers)
  local mend
  for _, action in ipairs(answer.result) do
    if action.edit and action.title:find("It mends riser height$") then
      mend = action
    end
  end
  assert(mend, vim.inspect(answer))
  vim.lsp.util.apply_workspace_edit(mend.edit, "utf-16")
  soon("the finding stays", function()
    return #vim.diagnostic.get(0, { severity = vim.diagnostic.severity.ERROR }) == 0
  end)
  vim.cmd("write")
  print(("neovim %s: %s, mended by %s"):format(vim.version().minor, words, mend.title))
  vim.cmd("qall")
end

local ok, why = pcall(run)
if not ok then
  fail(why)
end
