" Each row of the table by Vim's own engine.
let s:classes = {
  \ 'Comment': 'comment', 'Text': 'text', 'OpenText': 'open', 'Figure': 'figure', 'Sign': 'figure', 'Kind': 'kind',
  \ 'Property': 'property', 'Word': 'word', 'Clause': 'clause', 'Thing': 'thing', 'Quantity': 'quantity', 'Part': 'part',
  \ 'Block': 'block', 'Other': 'none', 'By': 'by', 'Operator': 'operator', '': 'none' }
let s:filetypes = { 'stair': 'stair', 'rules': 'stairrules' }
let s:wrong = []
let s:rows = 0

function! s:Plain(text) abort
  return substitute(substitute(a:text, '\\n', "\n", 'g'), '\\\\', '\', 'g')
endfunction

for s:row in readfile($COLOURS)
  if s:row =~# '^# '
    continue
  endif
  let [s:language, s:text, s:words, s:wanted] = map(split(s:row, "\t", 1), 's:Plain(v:val)')
  enew!
  call setline(1, split(s:text, "\n", 1))
  execute 'set filetype=' . s:filetypes[s:language]
  syntax sync fromstart
  let s:before = strpart(s:text, 0, stridx(s:text, s:words))
  let s:line = 1 + count(s:before, "\n")
  let s:column = strlen(matchstr(s:before, '[^\n]*$'))
  let s:is = {}
  for s:at in range(strlen(s:words))
    let s:name = synIDattr(synID(s:line, s:column + s:at + 1, 1), 'name')
    let s:is[get(s:classes, substitute(s:name, '^stair\%(Rules\)\=', '', ''), s:name)] = 1
  endfor
  let s:rows += 1
  if keys(s:is) != [s:wanted]
    call add(s:wrong, printf('%s of %s is %s, not %s', string(s:words), string(s:text), join(keys(s:is), ' and '), s:wanted))
  endif
endfor

" Which files are taken for what, and those of others that end alike.
call writefile(['SUBSYSTEM=="usb", MODE="0660"'], $OUT . '.rules')
let s:files = { $OUT . '.rules': '' }
for s:file in glob('rulesets/*.rules', 0, 1) + glob('examples/yard/**/*.rules', 0, 1)
  let s:files[s:file] = 'stairrules'
endfor
for s:file in glob('examples/*.stair', 0, 1) + ['examples/yard/shop.pitchboard']
  let s:files[s:file] = 'stair'
endfor
for [s:file, s:wanted] in items(s:files)
  execute 'edit!' fnameescape(s:file)
  if (s:wanted ==# '' && &filetype ==# 'stairrules') || (s:wanted !=# '' && &filetype !=# s:wanted)
    call add(s:wrong, s:file . ' is taken for ' . &filetype)
  endif
endfor
call writefile(s:wrong + [s:rows . ' rows of the table'], $OUT)
if !empty(s:wrong) || s:rows < 100
  cquit
endif
qall!
