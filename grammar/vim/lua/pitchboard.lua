-- Neovim's half: starts `pitchboard lsp` for designs, rules and the shop's file.
--
--   require("pitchboard").setup()
--
-- It was run with Neovim 0.7.2. From 0.8 on `vim.lsp.start` does the same, and does so here where it is there.
local M = {}

local client

local function attach(buffer, command)
  local config = {
    name = "pitchboard",
    cmd = command,
    root_dir = vim.fn.getcwd(),
  }
  if vim.lsp.start then
    vim.lsp.start(config, { bufnr = buffer })
    return
  end
  if not client or vim.lsp.client_is_stopped(client) then
    client = vim.lsp.start_client(config)
  end
  if client then
    vim.lsp.buf_attach_client(buffer, client)
  end
end

--- `command`: what starts the server, `{ "pitchboard", "lsp" }` unless given.
function M.setup(options)
  local command = options and options.command or { "pitchboard", "lsp" }
  vim.api.nvim_create_autocmd("FileType", {
    group = vim.api.nvim_create_augroup("pitchboard", { clear = true }),
    pattern = { "stair", "stairrules" },
    callback = function(opened)
      attach(opened.buf, command)
    end,
  })
end

return M
