-- A session with the language server in Neovim's own client: open a machine, wait for findings, ask a hover, complete a
-- terminal, rename a part, make a mistake, take the fix, leave. Prints what was seen as one line of JSON on standard output.
-- Environment: MACHINE (the file to open); the server is on the PATH.
local seen = {}

local function wait(what, condition)
  if not vim.wait(20000, condition, 20) then
    error('waited in vain for ' .. what)
  end
end

local function finding(diagnostic)
  return {
    code = diagnostic.code or (diagnostic.user_data and diagnostic.user_data.lsp and diagnostic.user_data.lsp.code),
    severity = diagnostic.severity,
    line = diagnostic.lnum,
    from = diagnostic.col,
    to = diagnostic.end_col,
    message = diagnostic.message,
  }
end

local function request(method, params)
  local answers = vim.lsp.buf_request_sync(0, method, params, 10000)
  for _, answer in pairs(answers or {}) do
    if answer.error then error(method .. ': ' .. answer.error.message) end
    return answer.result
  end
end

local function position_of(text)
  for line, content in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local from, to = content:find(text, 1, true)
    if from then return { line = line - 1, character = from - 1, finish = to } end
  end
  error('not in the text: ' .. text)
end

local function run()
  vim.cmd('edit ' .. vim.fn.fnameescape(vim.env.MACHINE))
  vim.bo.filetype = 'fettle-machine'
  local published = 0
  local client = vim.lsp.start_client({
    name = 'fettle',
    cmd = { 'fettle-language-server', '--stdio' },
    root_dir = vim.fn.fnamemodify(vim.env.MACHINE, ':h'),
    handlers = {
      ['textDocument/publishDiagnostics'] = function(...)
        vim.lsp.diagnostic.on_publish_diagnostics(...)
        published = published + 1
      end,
    },
  })
  vim.lsp.buf_attach_client(0, client)
  wait('the first findings', function() return published > 0 end)
  seen.opened = vim.tbl_map(finding, vim.diagnostic.get(0))

  local axis = position_of('160.000 /mm')
  local hover = request('textDocument/hover', {
    textDocument = vim.lsp.util.make_text_document_params(0),
    position = { line = axis.line, character = axis.character },
  })
  seen.hover = hover and vim.lsp.util.convert_input_to_markdown_lines(hover.contents) or {}

  local terminal = position_of('panel.PX -> drive-x.PUL-')
  local completions = request('textDocument/completion', {
    textDocument = vim.lsp.util.make_text_document_params(0),
    position = { line = terminal.line, character = terminal.character + 6 },
  })
  seen.completions = vim.tbl_map(function(each) return each.label end, completions.items or completions)

  local part = position_of('drive-x:')
  local renamed = request('textDocument/rename', {
    textDocument = vim.lsp.util.make_text_document_params(0),
    position = { line = part.line, character = part.character },
    newName = 'first-drive',
  })
  vim.lsp.util.apply_workspace_edit(renamed, 'utf-16')
  local text = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), '\n')
  seen.old_names = select(2, text:gsub('drive%-x%f[%W]', ''))
  seen.new_names = select(2, text:gsub('first%-drive%f[%W]', ''))

  local mistake = position_of('8000 ns')
  vim.api.nvim_buf_set_text(0, mistake.line, mistake.character, mistake.line, mistake.finish, { '8000' })
  wait('the finding of the mistake', function()
    local found = vim.tbl_filter(function(each) return each.lnum == mistake.line end, vim.diagnostic.get(0))
    seen.mistaken = vim.tbl_map(finding, found)
    return #found > 0
  end)
  seen.mistaken_text = vim.api.nvim_buf_get_lines(0, mistake.line, mistake.line + 1, false)[1]

  local range = {
    start = { line = mistake.line, character = mistake.character },
    ['end'] = { line = mistake.line, character = mistake.character + 4 },
  }
  local diagnostics = vim.tbl_map(function(each)
    return each.user_data and each.user_data.lsp and vim.tbl_extend('keep', {
      range = range, message = each.message, severity = each.severity,
    }, each.user_data.lsp) or { range = range, message = each.message, severity = each.severity }
  end, vim.diagnostic.get(0, { lnum = mistake.line }))
  local actions = request('textDocument/codeAction', {
    textDocument = vim.lsp.util.make_text_document_params(0),
    range = range,
    context = { diagnostics = diagnostics },
  })
  for _, action in ipairs(actions or {}) do
    if action.title:find('%f[%w]ns%f[%W]') then
      local whole = action.edit and action or request('codeAction/resolve', action)
      vim.lsp.util.apply_workspace_edit(whole.edit, 'utf-16')
      break
    end
  end
  wait('the finding to go', function() return #vim.diagnostic.get(0, { lnum = mistake.line }) == 0 end)
  seen.cured = #vim.diagnostic.get(0, { lnum = mistake.line })
  seen.cured_text = vim.api.nvim_buf_get_lines(0, mistake.line, mistake.line + 1, false)[1]

  vim.lsp.stop_client(client)
  wait('the server to leave', function() return vim.lsp.get_client_by_id(client) == nil or vim.lsp.get_client_by_id(client).is_stopped() end)
  seen.left = true
end

local good, trouble = pcall(run)
seen.trouble = not good and tostring(trouble) or nil
io.stdout:write(vim.json.encode(seen) .. '\n')
vim.cmd(good and 'qall!' or 'cquit!')
