" Which files are timber stairs written as text, and the rules that they are checked against.

autocmd BufNewFile,BufRead *.stair,shop.pitchboard set filetype=stair

" Others end so too. A set begins with one of its blocks, after comments.
function! s:IsSet() abort
  for l:line in getline(1, 200)
    if l:line !~# '^\s*\%(#.*\)\=$'
      return l:line =~# '^\s*\%(ruleset\|chapter\|rule\|amend\|withdraw\)\s\+"'
    endif
  endfor
  " Nothing stands there yet: where designs or a shop's file lie beside it, it will be one.
  let l:folder = expand('%:p:h')
  return !empty(glob(l:folder . '/*.stair')) || filereadable(l:folder . '/shop.pitchboard')
endfunction

autocmd BufNewFile,BufRead *.rules if s:IsSet() | set filetype=stairrules | endif
